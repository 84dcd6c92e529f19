// A yard that only plays says so round the whole screen: its clocks and releases must never be believed.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: band

    readonly property real thick: 6 * Theme.u

    DemoSide {
        anchors.left: parent.left
        anchors.right: parent.right
        anchors.top: parent.top
        height: band.thick
    }

    DemoSide {
        anchors.left: parent.left
        anchors.right: parent.right
        anchors.bottom: parent.bottom
        height: band.thick
    }

    DemoSide {
        upright: true
        anchors.left: parent.left
        anchors.top: parent.top
        anchors.bottom: parent.bottom
        width: band.thick
    }

    DemoSide {
        upright: true
        anchors.right: parent.right
        anchors.top: parent.top
        anchors.bottom: parent.bottom
        width: band.thick
    }
}
