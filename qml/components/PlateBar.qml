// The strip on top: back, the vessel's number on its plate, the standing, the clock, and the voice of anybody.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Controls.Basic
import Brimful

Item {
    id: bar

    required property Tablet tablet
    property string backTo: qsTr("Vessel")
    readonly property Plate plate: tablet.plate
    readonly property bool portrait: parent !== null && parent.height > parent.width
    readonly property bool banded: messages.told // the standing gives way to a message until it is answered

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

    BackKey {
        id: back

        to: bar.backTo
        name: qsTr("Back to %1").arg(bar.backTo)
        background: Item {
            FocusRing {
                visible: back.visualFocus
            }
        }
        onClicked: bar.tablet.back()
    }

    NumberPlate {
        id: number

        anchors.left: back.right
        anchors.leftMargin: 6 * Theme.u
        y: 12 * Theme.u
        text: bar.plate.number
        demo: bar.plate.demo
        visible: bar.portrait || !bar.banded
    }

    // The standing: its shape and its word, the hazard as it stands, and what it is held before. Where the last has no room a press
    // turns to it and back.
    AbstractButton {
        id: standing

        readonly property bool tight: Theme.large || ((contentItem as StandingWords)?.needed ?? 0) > width
        property bool turned: false

        anchors.left: bar.portrait ? parent.left : number.right
        anchors.leftMargin: (bar.portrait ? 6 : 18) * Theme.u
        anchors.right: bar.portrait ? parent.right : clock.visible ? clock.left : speak.left
        anchors.rightMargin: (bar.portrait ? 6 : clock.visible ? 12 : 18) * Theme.u
        y: (bar.portrait ? 100 : 6) * Theme.u
        height: Theme.target
        visible: !bar.banded
        enabled: tight
        focusPolicy: tight ? Qt.StrongFocus : Qt.NoFocus
        hoverEnabled: false
        padding: 0
        onTightChanged: turned = false
        onClicked: turned = !turned

        Accessible.role: tight ? Accessible.Button : Accessible.StaticText
        Accessible.name: bar.plate.spoken

        background: Rectangle {
            radius: 6 * Theme.u
            color: Theme.signal(bar.plate.colour)
            border.width: Theme.line
            border.color: Theme.colours.ink

            FocusRing {
                visible: standing.visualFocus
            }
        }

        contentItem: StandingWords {
            plate: bar.plate
            tight: standing.tight
            turned: standing.turned
        }
    }

    Column {
        id: clock

        // What is left for it when the standing has the room that its words need.
        readonly property real room: bar.width - number.width - back.width - speak.width - (bar.portrait ? 48 : 48 + 486) * Theme.u

        anchors.right: speak.left
        anchors.rightMargin: 18 * Theme.u
        y: (caption.visible ? -4 : 8) * Theme.u
        spacing: -10 * Theme.u
        visible: bar.plate.clock !== "" && (bar.portrait || !bar.banded)

        Words {
            anchors.right: parent.right
            text: bar.plate.clock
            bold: true
            size: 46
            cap: 62
            wrapMode: Text.NoWrap
        }

        Words {
            id: caption

            anchors.right: parent.right
            visible: !Theme.large && implicitWidth < clock.room
            text: bar.plate.caption
            size: 30
            cap: 30
            color: Theme.colours.ink2
            wrapMode: Text.NoWrap
        }
    }

    Messages {
        id: messages

        anchors.left: bar.portrait ? parent.left : back.right
        anchors.leftMargin: (bar.portrait ? 6 : 12) * Theme.u
        anchors.right: bar.portrait ? parent.right : speak.left
        anchors.rightMargin: (bar.portrait ? 6 : 12) * Theme.u
        y: (bar.portrait ? 100 : 6) * Theme.u
        tablet: bar.tablet
    }

    StopPress {
        id: speak

        anchors.right: parent.right
        anchors.rightMargin: 6 * Theme.u
        y: 6 * Theme.u
        width: 130 * Theme.u
        height: Theme.target
        glyph: Theme.large ? "voice" : ""
        title: Theme.large ? "" : qsTr("Speak\nup")
        name: qsTr("Speak up")
        size: 30
        onAct: bar.tablet.speakUp()
    }
}
