// A named part of the vessel, beside its drawing.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Press {
    id: tab

    required property Tablet tablet
    required property string key
    required property bool solid
    required title
    required line
    required glyph

    height: Theme.target
    size: 32
    lines: 1
    padding: 4 * Theme.u
    broken: !solid
    hangs: key === "tag"
    name: qsTr("%1, %2, opens it").arg(title).arg(line)
    onClicked: tab.tablet.openPart(tab.key)
}
