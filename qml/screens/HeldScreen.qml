// All that holds the vessel: the reason, what lifts it, who may.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    said: qsTr("Held by %1").arg(page.tablet.vessel.held.count)
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
        text: qsTr("Held by %1").arg(page.tablet.vessel.held.count)
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
        what: qsTr("reasons")
        model: page.tablet.vessel.held
        onPicked: key => page.tablet.openReason(key)
    }
}
