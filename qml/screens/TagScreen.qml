// The status tag: as it will be printed, and what to write on a card when nothing prints.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property TagPageModel tag: page.tablet.tag
    readonly property real previewWidth: (page.portrait ? 330 : 464) * Theme.u

    property bool cut: false // words too long for three keys in a row
    readonly property int across: page.portrait || page.cut || Theme.large ? 1 : 3

    said: page.tag.title
    onBlack: page.tag.printed ? page.tablet.saveTag() : page.tablet.printTag()

    PlateBar {
        id: bar

        tablet: page.tablet
    }

    Rectangle {
        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: bar.height + 12 * Theme.u
        width: page.previewWidth
        height: Math.min(page.height - y - 12 * Theme.u, width * 1.5)
        color: Theme.colours.steel

        TagDrawing {
            anchors.fill: parent
            anchors.margins: 6 * Theme.u
            visible: page.tag.printed
            tag: page.tag.tag
            Accessible.role: Accessible.Graphic
            Accessible.name: page.tag.title
        }

        Words {
            visible: !page.tag.printed
            anchors.fill: parent
            anchors.margins: 24 * Theme.u
            fontSizeMode: Text.Fit
            minimumPixelSize: Math.round(Theme.least)
            wrapMode: Text.WordWrap
            verticalAlignment: Text.AlignVCenter
            horizontalAlignment: Text.AlignHCenter
            text: qsTr("A tag is written down first, then printed. It says what was so at that moment.")
            size: 32
        }
    }

    Pager {
        id: side

        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        y: bar.height + 14 * Theme.u
        width: page.width - page.previewWidth - 3 * Theme.margin
        height: Math.min(implicitHeight, (card.visible ? card.y : acts.y) - y - 12 * Theme.u)
        spacing: 12 * Theme.u
        what: qsTr("the tag")

        Words {
            width: side.room
            text: page.tag.title
            bold: true
            size: 36
        }

        Words {
            width: side.room
            text: page.tag.saved !== "" ? page.tag.saved : qsTr("It holds no permission. Only the tablet releases.")
            size: 30
            color: Theme.colours.ink2
            wrapMode: Text.WrapAtWordBoundaryOrAnywhere
        }

        Grid {
            columns: page.across
            spacing: Theme.gap

            Repeater {
                model: page.tag.sizes

                Press {
                    required property string key
                    required title
                    required line
                    required chosen

                    width: (side.room - (page.across - 1) * Theme.gap) / page.across
                    height: 92 * Theme.u
                    onClicked: page.tag.pickSize(key)
                    onCutChanged: page.cut = page.cut || cut
                }
            }
        }

        Rectangle {
            visible: page.tag.takeOff !== ""
            width: side.room
            height: off.height + 24 * Theme.u
            radius: Theme.corner
            color: Theme.colours.warning
            border.width: Theme.line
            border.color: Theme.colours.ink

            Words {
                id: off

                anchors.left: parent.left
                anchors.leftMargin: 20 * Theme.u
                y: 12 * Theme.u
                width: parent.width - 40 * Theme.u
                text: page.tag.takeOff
                bold: true
                size: 32
                color: Theme.colours.warningText
            }
        }
    }

    // No printer: number, serial and code on a card by hand are the tag.
    Column {
        id: card

        visible: page.tag.printed
        anchors.left: side.left
        anchors.bottom: acts.top
        anchors.bottomMargin: 8 * Theme.u
        width: side.width

        Words {
            width: parent.width
            text: qsTr("No printer? Write this on a card:")
            size: 30
            cap: 40
            color: Theme.colours.ink2
        }

        Words {
            width: parent.width
            text: qsTr("%1  no. %2").arg(page.tag.number).arg(page.tag.serial)
            mono: true
            bold: true
            size: 56
            cap: 64
            maximumLineCount: 1
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Math.round(Theme.least)
        }

        Words {
            width: parent.width
            text: page.tag.code
            mono: true
            bold: true
            size: 84
            cap: 100
            maximumLineCount: 1
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Math.round(Theme.least)
            Accessible.ignored: false
            Accessible.role: Accessible.StaticText
            Accessible.name: qsTr("Short code %1").arg(text)
        }
    }

    Row {
        id: acts

        anchors.left: side.left
        y: page.height - Theme.key - 12 * Theme.u
        spacing: Theme.gap

        Press {
            width: (side.width - Theme.gap) / 2
            title: page.tag.printed ? qsTr("Same again") : qsTr("Back")
            name: page.tag.printed ? qsTr("Make the same tag again") : qsTr("Leave the tag")
            onClicked: page.tag.printed ? page.tablet.printTag() : page.tablet.back()
        }

        Press {
            width: (side.width - Theme.gap) / 2
            black: true
            title: page.tag.printed ? qsTr("Save to print") : qsTr("Make the tag")
            size: 40
            onClicked: page.tag.printed ? page.tablet.saveTag() : page.tablet.printTag()
        }
    }
}
