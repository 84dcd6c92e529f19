// The steps of one stretch: each with its value, or what is missing.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    said: page.tablet.vessel.stageName
    onBlack: page.tablet.nextThing()

    PlateBar {
        id: bar

        tablet: page.tablet
    }

    Words {
        id: title

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: bar.height + 10 * Theme.u
        text: page.tablet.vessel.stageName
        bold: true
        size: 44
        width: page.width - 2 * Theme.margin
    }

    RowsView {
        anchors.top: title.bottom
        anchors.topMargin: 10 * Theme.u
        anchors.bottom: parent.bottom
        anchors.bottomMargin: 12 * Theme.u
        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        width: page.width - 2 * Theme.margin
        rowHeight: 112 * Theme.u
        what: qsTr("steps")
        model: page.tablet.vessel.stage
        onPicked: key => page.tablet.openStep(key)
    }
}
