// The words of the standing panel. Tight: one line, a sign for the hazard, and what it is held before on the other side.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: said

    required property Plate plate
    required property bool tight
    required property bool turned
    readonly property real needed: Math.max(leastLine.advanceWidth + 92 * Theme.u, leastWord.advanceWidth + leastHazard.advanceWidth + 104 * Theme.u)
    readonly property color ink: Theme.onSignal(plate.colour)

    LeastMetrics {
        id: leastLine

        text: said.plate.line
    }

    LeastMetrics {
        id: leastWord

        font.bold: true
        text: said.plate.word
    }

    LeastMetrics {
        id: leastHazard

        font.bold: true
        text: said.plate.hazard
    }

    Glyph {
        id: shape

        anchors.left: parent.left
        anchors.leftMargin: 14 * Theme.u
        anchors.verticalCenter: parent.verticalCenter
        width: 52 * Theme.u
        height: 52 * Theme.u
        visible: !said.turned
        name: said.plate.glyph
        ink: said.ink
        theme: Theme.name
    }

    Words {
        id: word

        anchors.left: shape.right
        anchors.leftMargin: 14 * Theme.u
        anchors.right: hazard.visible ? hazard.left : sign.left
        anchors.rightMargin: 6 * Theme.u
        y: said.tight ? (said.height - height) / 2 : 4 * Theme.u
        visible: !said.turned
        text: said.plate.word
        bold: true
        size: 34
        cap: said.tight ? 62 : 34
        color: said.ink
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
        visible: !said.tight
        text: said.plate.hazard
        bold: true
        size: 30
        cap: 30
        color: said.ink
        wrapMode: Text.NoWrap
    }

    Words {
        id: line

        anchors.left: word.left
        anchors.right: parent.right
        anchors.rightMargin: 12 * Theme.u
        y: 42 * Theme.u
        visible: !said.tight
        text: said.plate.line
        size: 30
        cap: 30
        color: said.ink
        elide: Text.ElideRight
        wrapMode: Text.NoWrap
    }

    Words {
        anchors.left: parent.left
        anchors.leftMargin: 14 * Theme.u
        anchors.right: sign.left
        anchors.rightMargin: 6 * Theme.u
        anchors.top: parent.top
        anchors.bottom: parent.bottom
        visible: said.turned
        text: qsTr("%1: %2").arg(said.plate.hazard).arg(said.plate.line)
        bold: true
        size: 30
        cap: 52
        color: said.ink
        elide: Text.ElideRight
        wrapMode: Text.WordWrap
        fontSizeMode: Text.Fit
        minimumPixelSize: Math.round(Theme.least)
        verticalAlignment: Text.AlignVCenter
    }

    // A sign for the hazard, where it has no word.
    Glyph {
        id: sign

        anchors.right: parent.right
        anchors.rightMargin: 12 * Theme.u
        anchors.verticalCenter: parent.verticalCenter
        width: said.tight ? 56 * Theme.u : 0
        height: 56 * Theme.u
        visible: said.tight
        name: said.plate.colour === "notice" ? "more" : "danger"
        ink: said.ink
        theme: Theme.name
    }
}
