// The law that rules this yard, and what it asks beyond the rules themselves: each limit with its source and mark.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    said: qsTr("Law: %1").arg(page.tablet.lawName)
    onBlack: page.tablet.back()

    TitleBar {
        id: bar

        tablet: page.tablet
        title: page.said
    }

    Words {
        id: says

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        anchors.top: bar.bottom
        anchors.topMargin: 12 * Theme.u
        width: page.width - 2 * Theme.margin
        text: page.tablet.law.count === 0 ? qsTr("It names no limit of its own. The base rules hold.") : qsTr("The limits that it names, each with its source and mark:")
        size: 32
    }

    Pager {
        id: limits

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        anchors.top: says.bottom
        anchors.topMargin: 14 * Theme.u
        anchors.bottom: back.top
        anchors.bottomMargin: 14 * Theme.u
        width: page.width - 2 * Theme.margin
        spacing: 18 * Theme.u
        dragged: true
        what: qsTr("limits of the law")

        Repeater {
            model: page.tablet.law

            Column {
                id: limit

                required property string title
                required property string line
                required property bool solid

                width: limits.room

                Words {
                    width: parent.width
                    text: limit.title
                    bold: limit.solid
                    size: 36
                }

                Words {
                    width: parent.width
                    text: limit.line
                    size: 30
                    color: Theme.colours.ink2
                }
            }
        }
    }

    Press {
        id: back

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
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
