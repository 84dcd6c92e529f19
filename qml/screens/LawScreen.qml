// The law that rules this yard, and what it asks beyond the rules themselves: each limit with its source and mark.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    onBlack: page.tablet.back()

    Words {
        id: heading

        x: Theme.margin
        y: 24 * Theme.u
        width: page.width - 2 * Theme.margin
        text: qsTr("Law: %1").arg(page.tablet.lawName)
        bold: true
        size: 46
    }

    Words {
        id: says

        x: Theme.margin
        anchors.top: heading.bottom
        width: page.width - 2 * Theme.margin
        text: page.tablet.law.count === 0 ? qsTr("It names no limit of its own. The base rules hold.") : qsTr("Solid: tighter than the base rules. Broken: they ask as much.")
        size: 32
    }

    RowsView {
        x: Theme.margin
        anchors.top: says.bottom
        anchors.topMargin: 14 * Theme.u
        anchors.bottom: back.top
        anchors.bottomMargin: 14 * Theme.u
        width: page.width - 2 * Theme.margin
        pressable: false
        model: page.tablet.law
    }

    Press {
        id: back

        x: Theme.margin
        y: page.height - Theme.key - 14 * Theme.u
        width: 300 * Theme.u
        black: true
        title: qsTr("Back")
        name: qsTr("Back to Set up")
        size: 42
        onClicked: page.tablet.back()
    }

    Press {
        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        y: back.y
        width: 400 * Theme.u
        title: qsTr("Change the law")
        line: qsTr("two people")
        size: 42
        onClicked: page.tablet.adopt()
    }
}
