// Shown once, when a yard is made: the text that can enrol an authoriser when nobody else can.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    said: qsTr("Write this down. Lock it away.")
    onBlack: page.tablet.goOn()

    Pager {
        id: all

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        anchors.bottom: messages.told ? messages.top : written.top
        anchors.bottomMargin: 12 * Theme.u
        anchors.top: parent.top
        anchors.topMargin: Theme.margin
        width: page.width - 2 * Theme.margin
        what: qsTr("what to write down")
        spacing: 20 * Theme.u

        Words {
            width: all.room
            text: qsTr("Write this down. Lock it away.")
            bold: true
            size: 52
        }

        Words {
            width: all.room
            text: qsTr("It is shown once and kept nowhere. Its only power: to let somebody add people again when the last one who may has lost the PIN. Its use is shown on every report for good.")
            size: 34
        }

        Rectangle {
            width: all.room
            height: code.height + 48 * Theme.u
            radius: Theme.corner
            color: Theme.colours.panel
            border.width: Theme.line
            border.color: Theme.colours.ink

            Words {
                id: code

                x: 24 * Theme.u
                y: 24 * Theme.u
                width: parent.width - 48 * Theme.u
                text: page.tablet.recoverySheet
                mono: true
                bold: true
                size: 46
                wrapMode: Text.WrapAnywhere
                Accessible.ignored: false
                Accessible.role: Accessible.StaticText
                Accessible.name: qsTr("Recovery text")
            }
        }

        Words {
            width: all.room
            text: qsTr("Next: add people and a meter, and take on the rules by two signatures.")
            size: 34
        }
    }

    Messages {
        id: messages

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        anchors.bottom: written.top
        anchors.bottomMargin: Theme.gap
        tablet: page.tablet
    }

    Press {
        id: written

        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        y: page.height - Theme.key - 18 * Theme.u
        width: Math.min(534 * Theme.u, page.width - 2 * Theme.margin)
        black: true
        title: qsTr("It is written down")
        size: 42
        onClicked: page.tablet.goOn()
    }
}
