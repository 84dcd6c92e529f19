// The vessel's number on a plate with two rivets.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Rectangle {
    id: number

    required property string text
    required property bool demo

    width: words.implicitWidth + 62 * Theme.u
    height: 72 * Theme.u
    radius: 6 * Theme.u
    color: Theme.colours.steel
    border.width: Theme.line
    border.color: Theme.colours.ink

    Repeater {
        model: 2

        Rectangle {
            required property int index

            x: index === 0 ? 8 * Theme.u : number.width - 18 * Theme.u
            anchors.verticalCenter: parent.verticalCenter
            width: 10 * Theme.u
            height: 10 * Theme.u
            radius: 5 * Theme.u
            color: Theme.colours.panel
            border.width: 2 * Theme.u
            border.color: Theme.colours.ink
        }
    }

    Words {
        id: words

        anchors.centerIn: parent
        anchors.verticalCenterOffset: number.demo ? -16 * Theme.u : 0
        text: number.text
        mono: true
        bold: true
        size: number.demo ? 36 : 46
        cap: number.demo ? 36 : 60
        wrapMode: Text.NoWrap
    }

    Words {
        anchors.horizontalCenter: parent.horizontalCenter
        anchors.bottom: parent.bottom
        anchors.bottomMargin: -5 * Theme.u
        visible: number.demo
        text: qsTr("DEMO")
        bold: true
        size: 30
        cap: 30
        width: Math.min(implicitWidth, number.width - 8 * Theme.u)
        fontSizeMode: Text.HorizontalFit
        minimumPixelSize: Math.round(Theme.least)
    }
}
