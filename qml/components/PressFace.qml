// What stands on a press: its sign, its word, its second line. Words that are too large for the key become smaller.
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
    required property bool grows
    required property int lines
    required property color ink
    required property real room
    required property real tall
    readonly property bool cut: room > 0 && (title !== "" && titleWords.truncated || line !== "" && lineWords.truncated)
    readonly property real wide: room - (lone.visible ? 64 * Theme.u : 0) - (hangs ? 36 * Theme.u : 0) - (leftAligned ? 16 * Theme.u : 0)

    // As large as asked, in as many lines as allowed: how high that would be.
    Words {
        id: titleAsked

        visible: false
        width: face.wide - (beside.visible ? 36 * Theme.u : 0)
        text: face.title
        size: face.size
        bold: face.bold
        wrapMode: titleWords.wrapMode
        maximumLineCount: face.grows ? 99 : face.lines
    }

    Words {
        id: lineAsked

        visible: false
        width: face.wide
        text: face.line
        size: face.lineSize
        cap: lineWords.cap
        wrapMode: lineWords.wrapMode
        maximumLineCount: face.grows ? 99 : face.leftAligned ? 3 : 2
    }

    implicitHeight: content.height + 16 * Theme.u

    // Where a part of it stands: at the side that is read first, or in the middle.
    function from(whole: real, part: real): real {
        return face.leftAligned ? (Theme.mirrored ? whole - part : 0) : (whole - part) / 2;
    }

    Row {
        id: content

        x: face.from(face.width - (face.leftAligned ? 16 * Theme.u : 0), width) + (face.leftAligned ? 8 : face.hangs ? 14 : 0) * Theme.u
        anchors.verticalCenter: parent.verticalCenter
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
            transform: Scale {
                origin.x: lone.width / 2
                xScale: face.glyph === "back" && Theme.mirrored ? -1 : 1 // it points to where the screen came from
            }
        }

        Item {
            id: both

            readonly property real lineHeight: lineWords.visible ? lineWords.height : 0

            anchors.verticalCenter: parent.verticalCenter
            width: Math.max(titleRow.width, lineWords.visible ? lineWords.width : 0)
            height: titleRow.height + lineHeight

            Row {
                id: titleRow

                x: face.from(both.width, width)
                spacing: 8 * Theme.u

                Glyph {
                    id: beside

                    visible: face.glyph !== "" && face.title !== "" && !face.leftAligned
                    anchors.verticalCenter: parent.verticalCenter
                    width: 28 * Theme.u
                    height: 28 * Theme.u
                    name: face.glyph
                    ink: face.ink
                    theme: Theme.name
                }

                Words {
                    id: titleWords

                    visible: face.title !== ""
                    width: Math.min(titleAsked.implicitWidth, face.wide - (beside.visible ? 36 * Theme.u : 0))
                    height: face.grows ? titleAsked.implicitHeight : Math.min(titleAsked.implicitHeight + 1, face.tall - (lineWords.visible ? Math.min(lineAsked.implicitHeight, face.tall * 0.67) : 0))
                    text: face.title
                    size: face.size
                    bold: face.bold
                    color: face.ink
                    elide: Text.ElideRight
                    wrapMode: face.grows ? Text.Wrap : Text.WordWrap
                    fontSizeMode: face.grows ? Text.FixedSize : Text.Fit
                    minimumPixelSize: Math.round(Theme.least)
                    verticalAlignment: Text.AlignVCenter
                    horizontalAlignment: face.leftAligned ? Text.AlignLeft : Text.AlignHCenter
                }
            }

            Words {
                id: lineWords

                x: face.from(both.width, width)
                y: titleRow.height
                visible: face.line !== ""
                width: Math.min(lineAsked.implicitWidth, face.wide)
                height: face.grows ? lineAsked.implicitHeight : Math.min(lineAsked.implicitHeight + 1, face.tall - (titleWords.visible ? titleWords.height : 0))
                text: face.line
                size: face.lineSize
                cap: face.grows ? 0 : 40 // never above its title
                color: face.ink
                elide: Text.ElideRight
                wrapMode: face.grows ? Text.Wrap : Text.WordWrap
                fontSizeMode: face.grows ? Text.FixedSize : Text.Fit
                minimumPixelSize: Math.round(Theme.least)
                verticalAlignment: Text.AlignVCenter
                horizontalAlignment: face.leftAligned ? Text.AlignLeft : Text.AlignHCenter
            }
        }
    }
}
