// A list that pages and scrolls: rows of 17 mm or more, each a target.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

ListView {
    id: rows

    property real rowHeight: 100 * Theme.u
    property bool pressable: true

    signal picked(string key)

    clip: true
    spacing: 12 * Theme.u
    boundsBehavior: Flickable.StopAtBounds

    delegate: Press {
        id: row

        required property string key
        required property string note
        required property bool solid
        required title
        required line
        required glyph
        required chosen
        required property bool open

        width: rows.width
        height: Math.max(rows.rowHeight, implicitContentHeight + topPadding + bottomPadding)
        leftAligned: true
        size: 34
        broken: !solid
        name: note === "" ? (line === "" ? title : qsTr("%1, %2").arg(title).arg(line)) : qsTr("%1, %2, %3").arg(title).arg(line).arg(note)
        rightPadding: noteWords.visible ? noteWords.width + 36 * Theme.u : 8 * Theme.u
        onClicked: if (rows.pressable && open) {
            rows.picked(key);
        }

        Words {
            id: noteWords

            anchors.right: parent.right
            anchors.rightMargin: 22 * Theme.u
            anchors.verticalCenter: parent.verticalCenter
            visible: row.note !== ""
            text: row.note
            whole: false
            size: 30
            color: Theme.colours.ink2
            width: Math.min(implicitWidth, row.width * 0.36)
            horizontalAlignment: Text.AlignRight
            maximumLineCount: 2
            elide: Text.ElideRight
        }
    }
}
