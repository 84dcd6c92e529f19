// A line of writing, for what no pad can say: a name, a code that a scanner types.
pragma ComponentBehavior: Bound
import QtQuick
import QtQuick.Controls.Basic
import Brimful

TextField {
    id: field

    property string name: ""

    implicitHeight: Theme.key
    leftPadding: 22 * Theme.u
    rightPadding: 22 * Theme.u
    color: Theme.colours.ink
    placeholderTextColor: Theme.colours.ink2
    selectionColor: Theme.colours.ink
    selectedTextColor: Theme.colours.paper
    font.family: Theme.family
    font.pixelSize: Math.min(40 * Theme.text, 68) * Theme.u
    horizontalAlignment: Text.AlignLeft
    selectByMouse: true

    Accessible.role: Accessible.EditableText
    Accessible.name: field.name

    background: Box {
        unit: Theme.u
        fill: Theme.colours.panel
        ink: Theme.colours.ink
        line: (field.activeFocus ? 8 : 3) * Theme.u
        corner: Theme.corner
    }
}
