// A yard that only plays says so round the whole screen: its clocks and releases must never be believed.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: band

    readonly property real thick: 6 * Theme.u

    component Side: Item {
        id: side

        property bool upright: false
        property real thick: 6 * Theme.u

        clip: true

        Row {
            visible: !side.upright

            Repeater {
                model: Math.ceil(side.width / (24 * Theme.u)) + 1

                Row {
                    Rectangle {
                        width: 12 * Theme.u
                        height: side.thick
                        color: Theme.bandDark
                    }

                    Rectangle {
                        width: 12 * Theme.u
                        height: side.thick
                        color: Theme.bandLight
                    }
                }
            }
        }

        Column {
            visible: side.upright

            Repeater {
                model: Math.ceil(side.height / (24 * Theme.u)) + 1

                Column {
                    Rectangle {
                        width: side.thick
                        height: 12 * Theme.u
                        color: Theme.bandDark
                    }

                    Rectangle {
                        width: side.thick
                        height: 12 * Theme.u
                        color: Theme.bandLight
                    }
                }
            }
        }
    }

    Side {
        anchors.left: parent.left
        anchors.right: parent.right
        anchors.top: parent.top
        height: band.thick
    }

    Side {
        anchors.left: parent.left
        anchors.right: parent.right
        anchors.bottom: parent.bottom
        height: band.thick
    }

    Side {
        upright: true
        anchors.left: parent.left
        anchors.top: parent.top
        anchors.bottom: parent.bottom
        width: band.thick
    }

    Side {
        upright: true
        anchors.right: parent.right
        anchors.top: parent.top
        anchors.bottom: parent.bottom
        width: band.thick
    }
}
