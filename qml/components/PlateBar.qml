// The strip on top: back, the vessel's number on its plate, the standing, the clock, and the voice of anybody.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: bar

    required property Tablet tablet
    property string backTo: qsTr("Vessel")
    readonly property Plate plate: tablet.plate
    readonly property bool portrait: parent !== null && parent.height > parent.width
    readonly property real standingLeft: back.width + number.width + 30 * Theme.u

    anchors.left: parent.left
    anchors.right: parent.right
    height: portrait ? 196 * Theme.u : Theme.plate

    Rectangle {
        anchors.fill: parent
        color: Theme.colours.panel
    }

    Rectangle {
        anchors.left: parent.left
        anchors.right: parent.right
        anchors.bottom: parent.bottom
        height: Theme.line
        color: Theme.colours.ink
    }

    Press {
        id: back

        x: 6 * Theme.u
        y: 6 * Theme.u
        width: 190 * Theme.u
        lines: 1
        height: Theme.target
        title: bar.backTo
        name: qsTr("Back to %1").arg(bar.backTo)
        glyph: "back"
        size: 32
        leftAligned: true
        padding: 0
        background: Item {
            FocusRing {
                visible: back.visualFocus
            }
        }
        onClicked: bar.tablet.back()
    }

    Rectangle {
        id: number

        anchors.left: back.right
        anchors.leftMargin: 6 * Theme.u
        y: 12 * Theme.u
        width: plateNumber.implicitWidth + 62 * Theme.u
        height: 72 * Theme.u
        radius: 6 * Theme.u
        color: Theme.colours.steel
        border.width: Theme.line
        border.color: Theme.colours.ink

        Repeater {
            model: 2

            Rectangle {
                required property int index

                x: index === 0 ? 8 * Theme.u : number.width - 18 * Theme.u
                anchors.verticalCenter: parent.verticalCenter
                width: 10 * Theme.u
                height: 10 * Theme.u
                radius: 5 * Theme.u
                color: Theme.colours.panel
                border.width: 2 * Theme.u
                border.color: Theme.colours.ink
            }
        }

        Words {
            id: plateNumber

            anchors.centerIn: parent
            anchors.verticalCenterOffset: bar.plate.demo ? -16 * Theme.u : 0
            text: bar.plate.number
            mono: true
            bold: true
            size: bar.plate.demo ? 36 : 46
            wrapMode: Text.NoWrap
        }

        Words {
            anchors.horizontalCenter: parent.horizontalCenter
            anchors.bottom: parent.bottom
            anchors.bottomMargin: -5 * Theme.u
            visible: bar.plate.demo
            text: qsTr("DEMO")
            bold: true
            size: 30
        }
    }

    Rectangle {
        id: standing

        x: bar.portrait ? 6 * Theme.u : number.x + number.width + 18 * Theme.u
        y: bar.portrait ? 100 * Theme.u : 6 * Theme.u
        width: (bar.portrait ? bar.width - 6 * Theme.u : bar.plate.clock === "" ? speak.x - 18 * Theme.u : clock.x - 12 * Theme.u) - x
        height: Theme.target
        radius: 6 * Theme.u
        color: Theme.signal(bar.plate.colour)
        border.width: Theme.line
        border.color: Theme.colours.ink

        Accessible.role: Accessible.StaticText
        Accessible.name: bar.plate.spoken

        Glyph {
            id: shape

            x: 14 * Theme.u
            anchors.verticalCenter: parent.verticalCenter
            width: 52 * Theme.u
            height: 52 * Theme.u
            name: bar.plate.glyph
            ink: Theme.onSignal(bar.plate.colour)
            theme: Theme.name
        }

        Words {
            id: word

            anchors.left: shape.right
            anchors.leftMargin: 14 * Theme.u
            anchors.right: hazard.left
            anchors.rightMargin: 6 * Theme.u
            y: 4 * Theme.u
            text: bar.plate.word
            bold: true
            size: 34
            color: Theme.onSignal(bar.plate.colour)
            elide: Text.ElideRight
            wrapMode: Text.NoWrap
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Math.round(Theme.least)
        }

        Words {
            id: hazard

            anchors.right: parent.right
            anchors.rightMargin: 12 * Theme.u
            y: 6 * Theme.u
            text: bar.plate.hazard
            bold: true
            size: 30
            color: Theme.onSignal(bar.plate.colour)
            wrapMode: Text.NoWrap
        }

        Words {
            anchors.left: word.left
            anchors.right: parent.right
            anchors.rightMargin: 12 * Theme.u
            y: 42 * Theme.u
            text: bar.plate.line
            size: 30
            color: Theme.onSignal(bar.plate.colour)
            elide: Text.ElideRight
            wrapMode: Text.NoWrap
        }
    }

    Column {
        id: clock

        anchors.right: speak.left
        anchors.rightMargin: 18 * Theme.u
        y: -4 * Theme.u
        spacing: -10 * Theme.u
        visible: bar.plate.clock !== ""

        Words {
            anchors.right: parent.right
            text: bar.plate.clock
            bold: true
            size: 46
            wrapMode: Text.NoWrap
        }

        Words {
            anchors.right: parent.right
            text: bar.plate.caption
            size: 30
            color: Theme.colours.ink2
            wrapMode: Text.NoWrap
        }
    }

    Press {
        id: speak

        anchors.right: parent.right
        anchors.rightMargin: 6 * Theme.u
        y: 6 * Theme.u
        width: 130 * Theme.u
        height: Theme.target
        title: qsTr("Speak\nup")
        name: qsTr("Speak up")
        size: 30
        onPressed: bar.tablet.speakUp()
        Accessible.onPressAction: bar.tablet.speakUp()
    }
}
