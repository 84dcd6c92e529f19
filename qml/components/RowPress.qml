// A row that is pressed: its sign, its words, and at its end what it comes to.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Press {
    id: row

    property string note: ""
    property bool solid: true
    property bool beside: false // its line stands at the end, not below
    property real rowHeight: 100 * Theme.u
    property bool grow: true
    readonly property bool under: grow && Theme.large // no room at the end
    property real noteShare: 0.36

    height: grow ? Math.max(rowHeight, Math.max(implicitContentHeight, noteWords.visible ? noteWords.height : 0) + topPadding + bottomPadding) : rowHeight
    leftAligned: true
    below: beside ? "" : !under || note === "" ? line : line === "" ? note : "%1\n%2".arg(line).arg(note)
    grows: grow
    lines: Theme.text > 1 ? 4 : 2
    size: 34
    broken: !solid
    name: note === "" ? (line === "" ? title : qsTr("%1, %2").arg(title).arg(line)) : qsTr("%1, %2, %3").arg(title).arg(line).arg(note)
    endRoom: noteWords.visible ? noteWords.width + 28 * Theme.u : 0

    Words {
        id: noteWords

        anchors.right: parent.right
        anchors.rightMargin: 22 * Theme.u
        anchors.verticalCenter: parent.verticalCenter
        visible: text !== "" && !row.under
        text: row.beside ? row.line : row.note
        whole: false
        size: 30
        color: Theme.colours.ink2
        width: Math.min(implicitWidth, row.width * row.noteShare)
        horizontalAlignment: Text.AlignRight
        verticalAlignment: Text.AlignVCenter
        height: row.grow ? implicitHeight : Math.min(implicitHeight, row.height - 8 * Theme.u)
        maximumLineCount: 2
        fontSizeMode: row.grow ? Text.FixedSize : Text.Fit
        minimumPixelSize: Math.round(Theme.least)
        elide: Text.ElideRight
    }
}
