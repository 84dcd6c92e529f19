// Covers everything: what broke, what is kept, what is not, what to do. No plate: it could lie.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    onBlack: page.tablet.tryAgain()

    Rectangle {
        id: top

        width: parent.width
        height: 134 * Theme.u
        color: Theme.colours.danger

        Glyph {
            id: sign

            x: 34 * Theme.u
            y: 10 * Theme.u
            width: 116 * Theme.u
            height: 110 * Theme.u
            name: "danger"
            ink: Theme.colours.dangerText
            theme: Theme.name
        }

        Words {
            x: 176 * Theme.u
            y: 14 * Theme.u
            text: qsTr("DANGER")
            bold: true
            size: 46
            color: Theme.colours.dangerText
        }

        Words {
            x: 176 * Theme.u
            y: 74 * Theme.u
            width: parent.width - x - 20 * Theme.u
            text: page.tablet.faultTitle
            bold: true
            size: 38
            color: Theme.colours.dangerText
            maximumLineCount: 1
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Math.round(Theme.least)
            Accessible.ignored: false
            Accessible.role: Accessible.AlertMessage
            Accessible.name: text
        }
    }

    Column {
        x: Theme.margin
        y: top.height + 36 * Theme.u
        width: page.width - 2 * Theme.margin
        spacing: 24 * Theme.u

        Words {
            width: parent.width
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

                width: parent.width
                height: toldWords.y + toldWords.height

                Words {
                    text: told.title
                    bold: true
                    size: 34
                }

                Words {
                    id: toldWords

                    x: page.portrait ? 0 : 250 * Theme.u
                    y: page.portrait ? 44 * Theme.u : 0
                    width: parent.width - x
                    text: told.line
                    size: 34
                }
            }
        }

        Words {
            width: parent.width
            visible: text !== ""
            text: page.tablet.message
            bold: true
            size: 34
            Accessible.ignored: false
            Accessible.role: Accessible.AlertMessage
            Accessible.name: text
        }
    }

    Press {
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
