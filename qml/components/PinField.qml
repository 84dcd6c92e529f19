// Dots for a PIN: how many digits, never which.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: field

    property string caption: ""
    property int dots: 0
    readonly property bool two: words.lineCount > 1 // a long caption
    readonly property real dot: (two ? 34 : 40) * Theme.u

    implicitHeight: Theme.key

    Accessible.role: Accessible.StaticText
    Accessible.name: qsTr("%1, %n digit(s) typed", "", field.dots).arg(field.caption)

    Box {
        anchors.fill: parent
        unit: Theme.u
        fill: Theme.colours.panel
        ink: Theme.colours.ink
        line: 8 * Theme.u
        corner: Theme.corner
    }

    Words {
        id: words

        anchors.left: parent.left
        anchors.leftMargin: 22 * Theme.u
        y: (field.two ? 0 : 12) * Theme.u
        width: field.width - 44 * Theme.u
        text: field.caption
        size: 30
        cap: 30
        color: Theme.colours.ink2
        maximumLineCount: 2
        elide: Text.ElideRight
        wrapMode: Text.WordWrap
    }

    Row {
        anchors.right: parent.right
        anchors.rightMargin: 26 * Theme.u
        y: (field.two ? 78 : 58) * Theme.u
        spacing: 18 * Theme.u

        Repeater {
            model: Math.min(9, Math.max(6, field.dots))

            Rectangle {
                required property int index

                width: field.dot
                height: field.dot
                radius: field.dot / 2
                color: index < field.dots ? Theme.colours.ink : "transparent"
                border.width: Theme.line
                border.color: Theme.colours.ink
            }
        }
    }
}
