// A vessel of the yard: its drawing at the common scale, its number and next thing, its standing, its shortest clock.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: row

    required property real drawn
    required property real metres
    required property bool portrait
    required property string number
    required property string next
    required property string hazard
    required property string colour
    required property string word
    required property string clock
    required property string caption
    required property vesselPicture picture
    required property string glyph
    required property string line
    readonly property real k: Theme.text

    VesselDrawing {
        id: drawing

        anchors.left: parent.left
        anchors.leftMargin: 16 * Theme.u
        y: row.k > 1 ? (row.height - height) / 2 : 2 * Theme.u
        width: row.drawn
        height: 138 * Theme.u
        picture: row.picture
        metres: row.metres
        labels: false
        unit: Theme.u * 0.6
        theme: Theme.name
    }

    Column {
        anchors.left: parent.left
        anchors.leftMargin: row.drawn + 40 * Theme.u
        anchors.right: standing.left
        anchors.rightMargin: 12 * Theme.u
        anchors.verticalCenter: parent.verticalCenter
        spacing: 4 * Theme.u

        Words {
            width: parent.width
            text: row.number
            mono: true
            bold: true
            size: 46
            wrapMode: Text.NoWrap
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Math.round(Theme.least)
        }

        Words {
            width: parent.width
            height: row.k > 1 ? Math.min(implicitHeight, row.height - 64 * row.k * Theme.u) : implicitHeight
            text: row.next
            size: 30
            whole: false
            maximumLineCount: row.k > 1 ? 4 : 2
            elide: Text.ElideRight
            wrapMode: row.k > 1 ? Text.WordWrap : Text.Wrap
            fontSizeMode: row.k > 1 ? Text.Fit : Text.FixedSize
            minimumPixelSize: Math.round(Theme.least)
        }
    }

    Rectangle {
        id: standing

        anchors.right: parent.right
        anchors.rightMargin: row.portrait ? 12 * Theme.u : 226 * Theme.u
        y: 0
        width: (row.portrait ? 330 : 432) * Theme.u
        height: (row.portrait ? 181 : 141) * row.k * Theme.u
        radius: 6 * Theme.u
        color: Theme.colours.panel
        border.width: Theme.line
        border.color: Theme.colours.ink

        Rectangle {
            id: strip

            width: parent.width
            height: 44 * row.k * Theme.u
            radius: 6 * Theme.u
            color: Theme.signal(row.colour)
            border.width: Theme.line
            border.color: Theme.colours.ink

            Glyph {
                anchors.left: parent.left
                anchors.leftMargin: 18 * Theme.u
                anchors.verticalCenter: parent.verticalCenter
                width: 40 * Theme.u
                height: 40 * Theme.u
                visible: !hazard.visible
                name: "danger"
                ink: Theme.onSignal(row.colour)
                theme: Theme.name
            }

            Words {
                id: hazard

                anchors.left: parent.left
                anchors.leftMargin: 18 * Theme.u
                anchors.verticalCenter: parent.verticalCenter
                width: strip.width - 26 * Theme.u - (time.visible ? time.width + 12 * Theme.u : 0)
                visible: implicitWidth / row.k < width // else the sign stands for it
                text: row.hazard
                bold: true
                size: 30
                color: Theme.onSignal(row.colour)
                maximumLineCount: 1
                elide: Text.ElideRight
                fontSizeMode: Text.HorizontalFit
                minimumPixelSize: Math.round(Theme.least)
            }

            Words {
                id: time

                visible: row.portrait && text !== ""
                anchors.right: parent.right
                anchors.rightMargin: 12 * Theme.u
                anchors.verticalCenter: parent.verticalCenter
                text: row.clock
                bold: true
                size: 34
                cap: 40
                color: Theme.onSignal(row.colour)
            }
        }

        Glyph {
            id: shape

            anchors.left: parent.left
            anchors.leftMargin: 10 * Theme.u
            y: strip.height + 22 * row.k * Theme.u
            width: 52 * Theme.u
            height: 52 * Theme.u
            name: row.glyph
            ink: Theme.colours.ink
            theme: Theme.name
        }

        Words {
            anchors.left: shape.right
            anchors.leftMargin: 8 * Theme.u
            anchors.right: parent.right
            anchors.rightMargin: 4 * Theme.u
            y: strip.height + 6 * row.k * Theme.u
            text: row.word
            bold: true
            size: 36
            maximumLineCount: 1
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Math.round(Theme.least)
        }

        Words {
            anchors.left: shape.right
            anchors.leftMargin: 8 * Theme.u
            anchors.right: parent.right
            anchors.rightMargin: 4 * Theme.u
            y: 94 * row.k * Theme.u
            height: parent.height - y - 4 * Theme.u
            text: row.line
            size: 30
            elide: Text.ElideRight
            wrapMode: Text.WordWrap
            fontSizeMode: Text.Fit
            minimumPixelSize: Math.round(Theme.least)
            whole: false // its own screen says it whole
        }
    }

    Column {
        visible: !row.portrait && row.clock !== ""
        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        anchors.verticalCenter: parent.verticalCenter
        width: 190 * Theme.u

        Words {
            width: parent.width
            horizontalAlignment: Text.AlignRight
            text: row.clock
            bold: true
            size: row.clock.length > 5 ? 48 : 62
            cap: size
            wrapMode: Text.NoWrap
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Math.round(Theme.least)
        }

        Words {
            width: parent.width
            horizontalAlignment: Text.AlignRight
            text: row.caption
            size: 30
            cap: 38
            color: Theme.colours.ink2
            wrapMode: Text.WordWrap
        }
    }
}
