// Everything that a hand presses: a key, a tab, a card, the black button. One word or two lines, a sign before it.
import QtQuick
import QtQuick.Controls.Basic
import Brimful

AbstractButton {
    id: press

    property string title: ""
    property string line: ""
    property string glyph: ""
    property string name: line === "" ? title : qsTr("%1, %2").arg(title).arg(line)
    property real size: 36
    property real lineSize: 30
    property bool bold: true
    property bool black: false
    property bool danger: false
    property bool chosen: false
    property bool broken: false
    property bool hangs: false
    property bool quiet: false
    property bool leftAligned: false
    property int lines: 2

    readonly property color inkHere: danger ? Theme.colours.dangerText : black && enabled ? Theme.colours.actText : Theme.colours.ink

    implicitWidth: Theme.key
    implicitHeight: Theme.key
    padding: 8 * Theme.u
    focusPolicy: Qt.StrongFocus
    hoverEnabled: false

    Accessible.role: Accessible.Button
    Accessible.name: press.name
    Accessible.onPressAction: press.clicked()

    background: Box {
        unit: Theme.u
        fill: press.danger ? Theme.colours.danger : press.black && press.enabled ? Theme.colours.act : press.down ? Theme.colours.steel : press.quiet ? Theme.colours.paper : Theme.colours.panel
        ink: press.quiet && !press.chosen ? Theme.colours.line : Theme.colours.ink
        line: (press.chosen ? 8 : 3) * Theme.u
        corner: Theme.corner
        broken: press.broken || !press.enabled
        hangs: press.hangs

        FocusRing {
            visible: press.visualFocus
        }
    }

    contentItem: Item {
        Row {
            id: content

            anchors.verticalCenter: parent.verticalCenter
            anchors.left: press.leftAligned ? parent.left : undefined
            anchors.leftMargin: press.leftAligned ? 8 * Theme.u : 0
            anchors.horizontalCenter: press.leftAligned ? undefined : parent.horizontalCenter
            anchors.horizontalCenterOffset: press.hangs ? 14 * Theme.u : 0
            spacing: 12 * Theme.u

            Glyph {
                id: lone

                visible: press.glyph !== "" && (press.title === "" || press.leftAligned)
                anchors.verticalCenter: parent.verticalCenter
                width: 44 * Theme.u
                height: 44 * Theme.u
                name: press.glyph
                ink: press.inkHere
                theme: Theme.name
            }

            Column {
                anchors.verticalCenter: parent.verticalCenter

                Row {
                    anchors.horizontalCenter: press.leftAligned ? undefined : parent.horizontalCenter
                    spacing: 8 * Theme.u

                    Glyph {
                        visible: press.glyph !== "" && press.title !== "" && !press.leftAligned
                        anchors.verticalCenter: parent.verticalCenter
                        width: 28 * Theme.u
                        height: 28 * Theme.u
                        name: press.glyph
                        ink: press.inkHere
                        theme: Theme.name
                    }

                    Words {
                        visible: press.title !== ""
                        width: Math.min(implicitWidth, press.availableWidth - (lone.visible ? 64 * Theme.u : 0) - (press.hangs ? 36 * Theme.u : 0))
                        text: press.title
                        size: press.size
                        bold: press.bold
                        color: press.inkHere
                        maximumLineCount: press.lines
                        elide: Text.ElideRight
                        fontSizeMode: Text.Fit
                        minimumPixelSize: Math.round(Theme.least)
                        horizontalAlignment: press.leftAligned ? Text.AlignLeft : Text.AlignHCenter
                    }
                }

                Words {
                    anchors.horizontalCenter: press.leftAligned ? undefined : parent.horizontalCenter
                    visible: press.line !== ""
                    width: Math.min(implicitWidth, press.availableWidth - (lone.visible ? 64 * Theme.u : 0) - (press.hangs ? 36 * Theme.u : 0))
                    text: press.line
                    size: press.lineSize
                    color: press.inkHere
                    maximumLineCount: press.leftAligned ? 2 : 1
                    elide: Text.ElideRight
                    horizontalAlignment: press.leftAligned ? Text.AlignLeft : Text.AlignHCenter
                }
            }
        }
    }
}
