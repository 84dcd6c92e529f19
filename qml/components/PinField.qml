// Dots for a PIN: how many digits, never which.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: field

    property string caption: ""
    property int dots: 0

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
        x: 22 * Theme.u
        y: 12 * Theme.u
        width: field.width - 44 * Theme.u
        text: field.caption
        size: 30
        color: Theme.colours.ink2
        elide: Text.ElideRight
        wrapMode: Text.NoWrap
    }

    Row {
        anchors.right: parent.right
        anchors.rightMargin: 26 * Theme.u
        y: 58 * Theme.u
        spacing: 18 * Theme.u

        Repeater {
            model: Math.min(9, Math.max(6, field.dots))

            Rectangle {
                required property int index

                width: 40 * Theme.u
                height: 40 * Theme.u
                radius: 20 * Theme.u
                color: index < field.dots ? Theme.colours.ink : "transparent"
                border.width: Theme.line
                border.color: Theme.colours.ink
            }
        }
    }
}
