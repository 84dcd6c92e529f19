// What stands on a press: its sign, its word, its second line.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: face

    required property string title
    required property string line
    required property string glyph
    required property real size
    required property real lineSize
    required property bool bold
    required property bool leftAligned
    required property bool hangs
    required property int lines
    required property color ink
    required property real room

    implicitHeight: content.height + 16 * Theme.u

    Row {
        id: content

        anchors.verticalCenter: parent.verticalCenter
        anchors.left: face.leftAligned ? parent.left : undefined
        anchors.leftMargin: face.leftAligned ? 8 * Theme.u : 0
        anchors.horizontalCenter: face.leftAligned ? undefined : parent.horizontalCenter
        anchors.horizontalCenterOffset: face.hangs ? 14 * Theme.u : 0
        spacing: 12 * Theme.u

        Glyph {
            id: lone

            visible: face.glyph !== "" && (face.title === "" || face.leftAligned)
            anchors.verticalCenter: parent.verticalCenter
            width: 44 * Theme.u
            height: 44 * Theme.u
            name: face.glyph
            ink: face.ink
            theme: Theme.name
        }

        Column {
            anchors.verticalCenter: parent.verticalCenter

            Row {
                anchors.horizontalCenter: face.leftAligned ? undefined : parent.horizontalCenter
                spacing: 8 * Theme.u

                Glyph {
                    visible: face.glyph !== "" && face.title !== "" && !face.leftAligned
                    anchors.verticalCenter: parent.verticalCenter
                    width: 28 * Theme.u
                    height: 28 * Theme.u
                    name: face.glyph
                    ink: face.ink
                    theme: Theme.name
                }

                Words {
                    visible: face.title !== ""
                    width: Math.min(implicitWidth, face.room - (lone.visible ? 64 * Theme.u : 0) - (face.hangs ? 36 * Theme.u : 0) - (face.leftAligned ? 16 * Theme.u : 0))
                    text: face.title
                    size: face.size
                    bold: face.bold
                    color: face.ink
                    maximumLineCount: face.lines
                    elide: Text.ElideRight
                    fontSizeMode: Text.Fit
                    minimumPixelSize: Math.round(Theme.least)
                    horizontalAlignment: face.leftAligned ? Text.AlignLeft : Text.AlignHCenter
                }
            }

            Words {
                anchors.horizontalCenter: face.leftAligned ? undefined : parent.horizontalCenter
                visible: face.line !== ""
                width: Math.min(implicitWidth, face.room - (lone.visible ? 64 * Theme.u : 0) - (face.hangs ? 36 * Theme.u : 0) - (face.leftAligned ? 16 * Theme.u : 0))
                text: face.line
                size: face.lineSize
                color: face.ink
                maximumLineCount: face.leftAligned ? 3 : 1
                elide: Text.ElideRight
                horizontalAlignment: face.leftAligned ? Text.AlignLeft : Text.AlignHCenter
            }
        }
    }
}
