// Text: never smaller than 3.9 mm capitals, plain, in the program's own face.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Text {
    property real size: 30
    property bool bold: false
    property bool mono: false
    property bool whole: true // false: a list that opens to the whole may cut it

    color: Theme.colours.ink
    textFormat: Text.PlainText
    wrapMode: Text.Wrap
    font.family: mono ? Theme.mono : Theme.family
    font.bold: bold
    font.pixelSize: size * Theme.u
    font.preferShaping: false
    lineHeightMode: Text.ProportionalHeight
    Accessible.ignored: true
}
