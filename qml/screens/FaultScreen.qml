// Covers everything: what broke, what is kept, what is not, what to do. No plate: it could lie.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    said: "%1. %2".arg(page.tablet.faultTitle).arg(qsTr("Every vessel is held."))
    onBlack: page.tablet.tryAgain()

    Rectangle {
        id: top

        width: parent.width
        height: Math.max(134 * Theme.u, title.y + title.height + 14 * Theme.u)
        color: Theme.colours.danger

        Glyph {
            id: sign

            anchors.left: parent.left
            anchors.leftMargin: 34 * Theme.u
            y: 10 * Theme.u
            width: 116 * Theme.u
            height: 110 * Theme.u
            name: "danger"
            ink: Theme.colours.dangerText
            theme: Theme.name
        }

        Words {
            id: danger

            anchors.left: sign.right
            anchors.leftMargin: 26 * Theme.u
            y: 14 * Theme.u
            text: qsTr("DANGER")
            bold: true
            size: 46
            color: Theme.colours.dangerText
        }

        Words {
            id: title

            anchors.left: sign.right
            anchors.leftMargin: 26 * Theme.u
            anchors.right: parent.right
            anchors.rightMargin: 20 * Theme.u
            y: Math.max(74 * Theme.u, danger.y + danger.height)
            text: page.tablet.faultTitle
            bold: true
            size: 38
            color: Theme.colours.dangerText
            Accessible.ignored: false
            Accessible.role: Accessible.AlertMessage
            Accessible.name: text
        }
    }

    Pager {
        id: all

        readonly property bool stacked: page.portrait || Theme.large

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        anchors.top: top.bottom
        anchors.topMargin: (Theme.large ? 12 : 36) * Theme.u
        anchors.bottom: messages.told ? messages.top : again.top
        anchors.bottomMargin: 12 * Theme.u
        width: page.width - 2 * Theme.margin
        spacing: 24 * Theme.u
        what: qsTr("what broke")

        Words {
            width: all.room
            text: qsTr("Every vessel is held.")
            bold: true
            size: 46
        }

        Repeater {
            model: page.tablet.faultLines

            Item {
                id: told

                required property string title
                required property string line

                width: all.room
                height: Math.max(toldTitle.height, toldWords.y + toldWords.height)

                Words {
                    id: toldTitle

                    anchors.left: parent.left
                    width: all.stacked ? parent.width : 240 * Theme.u
                    text: told.title
                    bold: true
                    size: 34
                }

                Words {
                    id: toldWords

                    anchors.left: parent.left
                    anchors.leftMargin: all.stacked ? 0 : 250 * Theme.u
                    anchors.right: parent.right
                    y: all.stacked ? Math.max(44 * Theme.u, toldTitle.height) : 0
                    text: told.line
                    size: 34
                }
            }
        }

        Words {
            width: all.room
            visible: text !== ""
            text: page.tablet.message
            bold: true
            size: 34
            Accessible.ignored: false
            Accessible.role: Accessible.AlertMessage
            Accessible.name: text
        }
    }

    Messages { // the alarm of before
        id: messages

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        anchors.bottom: again.top
        anchors.bottomMargin: Theme.gap
        tablet: page.tablet
    }

    Press {
        id: again

        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        y: page.height - Theme.key - 18 * Theme.u
        width: Math.min(534 * Theme.u, page.width - 2 * Theme.margin)
        black: true
        title: qsTr("Try again")
        line: qsTr("opens, checks, then goes on")
        size: 44
        onClicked: page.tablet.tryAgain()
    }
}
