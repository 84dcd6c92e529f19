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
    readonly property bool wide: width > 400 * Theme.u // it alone: its echo has room, and the ask says its caption whole
    readonly property string below: outside ? qsTr("outside") : Theme.large ? "" : echo

    LayoutMirroring.enabled: false // a number and its unit stand as they are read
    LayoutMirroring.childrenInherit: true

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
        width: field.width - 66 * Theme.u - (field.wide ? number.width + unitWord.width : 0)
        visible: !field.wide || !Theme.large
        text: field.caption
        whole: false // the ask says it whole
        size: 30
        cap: 30
        color: Theme.colours.ink2
        elide: Text.ElideRight
        wrapMode: Text.NoWrap
    }

    Words {
        x: 22 * Theme.u
        anchors.bottom: parent.bottom
        anchors.bottomMargin: 16 * Theme.u
        visible: field.wide
        text: field.below
        bold: field.outside
        size: 30
        color: Theme.colours.ink2
        wrapMode: Text.NoWrap
        width: Math.max(0, number.x - 32 * Theme.u)
        elide: Text.ElideRight
        fontSizeMode: Text.HorizontalFit
        minimumPixelSize: Math.round(Theme.least)
    }

    Words {
        id: number

        anchors.right: unitWord.left
        anchors.rightMargin: unitWord.text === "" ? 0 : 14 * Theme.u
        y: Theme.large && field.wide ? (field.height - height) / 2 : field.height - height - 6 * Theme.u
        text: field.value
        bold: true
        size: field.wide && field.value.length < 9 ? 72 : field.value.length < 6 ? 60 : 44
        cap: field.wide ? (field.value.length < 7 ? 90 : 72) : size
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
        cap: field.wide ? 64 : 36
        wrapMode: Text.NoWrap
    }
}
