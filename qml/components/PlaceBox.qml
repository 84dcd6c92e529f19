// A place of a round: its name, what was read there, whether that counts.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: place

    required property string title
    required property string line
    required property string note
    required property bool solid
    required property bool chosen

    height: 92 * Theme.u

    Box {
        anchors.fill: parent
        unit: Theme.u
        fill: Theme.colours.panel
        ink: Theme.colours.ink
        line: (place.chosen ? 8 : 3) * Theme.u
        broken: !place.solid && !place.chosen
        corner: 6 * Theme.u
    }

    PlaceWords {
        id: name

        anchors.left: parent.left
        anchors.leftMargin: 12 * Theme.u
        y: 6 * Theme.u
        width: Math.min(implicitWidth, place.width - 24 * Theme.u - first.width)
        text: place.title
        bold: true
    }

    PlaceWords {
        id: first

        anchors.right: parent.right
        anchors.rightMargin: 12 * Theme.u
        y: 6 * Theme.u
        width: Math.min(implicitWidth, place.width * 0.6)
        horizontalAlignment: Text.AlignRight
        text: place.line
    }

    Glyph {
        id: sign

        anchors.left: parent.left
        anchors.leftMargin: 8 * Theme.u
        y: 50 * Theme.u
        width: 32 * Theme.u
        height: 32 * Theme.u
        name: place.solid ? "fresh" : "missing"
        ink: Theme.colours.ink
        theme: Theme.name
    }

    PlaceWords {
        anchors.right: parent.right
        anchors.rightMargin: 12 * Theme.u
        y: 46 * Theme.u
        width: Math.min(implicitWidth, place.width - 56 * Theme.u)
        horizontalAlignment: Text.AlignRight
        text: place.note
        bold: place.solid
    }
}
