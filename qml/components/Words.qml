// Text: never smaller than 3.9 mm capitals, plain, in the program's own face.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Text {
    property real size: 30
    property bool bold: false
    property bool mono: false
    property real cap: 0 // what it stands on does not grow: no larger than this, 0 none
    property bool whole: true // false: a list that opens to the whole may cut it

    color: Theme.colours.ink
    textFormat: Text.PlainText
    wrapMode: Text.Wrap
    horizontalAlignment: Text.AlignLeft
    font.family: mono ? Theme.mono : Theme.family
    font.bold: bold
    font.pixelSize: (cap > 0 ? Math.max(size, Math.min(size * Theme.text, cap)) : size * Theme.text) * Theme.u
    font.preferShaping: false
    lineHeightMode: Text.ProportionalHeight
    Accessible.ignored: true
}
