// Back, to what its word says; where that has no room the arrow says it alone.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Press {
    id: back

    property string to: ""
    readonly property bool lone: Theme.large || word.advanceWidth > width - 84 * Theme.u

    anchors.left: parent.left
    anchors.leftMargin: 6 * Theme.u
    y: 6 * Theme.u
    width: (Theme.large ? 84 : 190) * Theme.u
    height: Theme.target
    lines: 1
    title: lone ? "" : to
    glyph: "back"
    size: 32
    leftAligned: !lone
    padding: 0

    TextMetrics {
        id: word

        font.family: Theme.family
        font.bold: true
        font.pixelSize: Theme.least
        text: back.to
    }
}
