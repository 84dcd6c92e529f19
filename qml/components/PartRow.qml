// A part's row: its state stands beside its name.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

RowPress {
    id: part

    required property Tablet tablet
    required property string key
    required title
    required line
    required glyph
    required solid

    rowHeight: Theme.target
    padding: 4 * Theme.u
    size: 32
    beside: true
    grow: false
    noteShare: 0.45
    name: qsTr("%1, %2, opens it").arg(title).arg(line)
    onClicked: part.tablet.openPart(part.key)
}
