// A list that pages and scrolls: rows of 17 mm or more, each a target.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: rows

    property real rowHeight: 100 * Theme.u
    property bool pressable: true
    property bool grow: true // a row is as high as its words need
    required property string what
    property alias model: list.model
    property alias count: list.count
    property alias spacing: list.spacing
    property alias interactive: list.interactive
    readonly property real shift: list.contentY - list.originY
    readonly property bool paged: key.needed && Theme.text > 1

    signal picked(string key)

    ListView {
        id: list

        anchors.left: parent.left
        anchors.top: parent.top
        anchors.bottom: parent.bottom
        width: parent.width - (rows.paged ? key.width + 12 * Theme.u : 0)
        clip: true
        spacing: 12 * Theme.u
        boundsBehavior: Flickable.StopAtBounds

        delegate: RowPress {
            required property string key
            required property bool open
            required title
            required line
            required note
            required glyph
            required solid
            required chosen

            width: list.width
            rowHeight: rows.rowHeight
            grow: rows.grow
            onClicked: if (rows.pressable && open) {
                rows.picked(key);
            }
        }
    }

    PageKey {
        id: key

        anchors.right: parent.right
        anchors.bottom: parent.bottom
        visible: rows.paged
        of: list
        what: rows.what
    }
}
