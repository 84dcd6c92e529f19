// The field over the pad: what is being typed, with its unit, large.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: field

    property string caption: ""
    property string value: ""
    property string unit: ""
    property string echo: ""
    property bool active: true
    property bool outside: false

    implicitHeight: Theme.key

    Accessible.role: Accessible.StaticText
    Accessible.name: qsTr("%1: %2 %3").arg(field.caption).arg(field.value).arg(field.unit)

    Box {
        anchors.fill: parent
        unit: Theme.u
        fill: Theme.colours.panel
        ink: Theme.colours.ink
        line: (field.active ? 8 : 3) * Theme.u
        corner: Theme.corner
        broken: field.outside
    }

    Words {
        x: 22 * Theme.u
        y: 12 * Theme.u
        width: field.width - 66 * Theme.u - (field.width > 400 * Theme.u ? number.width + unitWord.width : 0)
        text: field.caption
        whole: false // the ask says it whole
        size: 30
        color: Theme.colours.ink2
        elide: Text.ElideRight
        wrapMode: Text.NoWrap
    }

    Words {
        x: 22 * Theme.u
        anchors.bottom: parent.bottom
        anchors.bottomMargin: 16 * Theme.u
        visible: field.width > 400 * Theme.u
        text: field.outside ? qsTr("outside") : field.echo
        bold: field.outside
        size: 30
        color: Theme.colours.ink2
        wrapMode: Text.NoWrap
        width: Math.max(0, number.x - 32 * Theme.u)
        elide: Text.ElideRight
    }

    Words {
        id: number

        anchors.right: unitWord.left
        anchors.rightMargin: unitWord.text === "" ? 0 : 14 * Theme.u
        anchors.bottom: parent.bottom
        anchors.bottomMargin: 6 * Theme.u
        text: field.value
        bold: true
        size: field.width > 400 * Theme.u && field.value.length < 9 ? 72 : field.value.length < 6 ? 60 : 44
        wrapMode: Text.NoWrap
    }

    Words {
        id: unitWord

        anchors.right: parent.right
        anchors.rightMargin: 20 * Theme.u
        anchors.baseline: number.baseline
        text: field.unit
        bold: true
        size: 36
        wrapMode: Text.NoWrap
    }
}
