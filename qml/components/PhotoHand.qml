// A photograph or a paper by hand: what the camera sees and its shutter, or the newest pictures that came to this tablet; what was
// picked is shown large, then Take.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: hand

    required property Sheet sheet
    readonly property Photographs pictures: sheet.photographs
    readonly property bool picked: sheet.written !== ""
    readonly property bool live: sheet.byCamera && !picked
    readonly property bool listed: !picked && !live
    readonly property bool none: listed && pictures.rows.count === 0

    //: how a picture counts that was not taken here
    readonly property string counts: hand.sheet.hasCamera ? qsTr("A file counts, and is marked so. The newest first.") : qsTr("No camera here: a file counts, and is marked so. The newest first.")

    readonly property real low: (chalk.visible ? chalk.y : none ? again.y : note.y) - 10 * Theme.u

    // ---- where pictures come to, and how
    Pager {
        anchors.left: parent.left
        anchors.right: parent.right
        height: hand.low
        visible: hand.none
        spacing: 12 * Theme.u
        dragged: true
        what: qsTr("what to do")

        Words {
            width: parent.width
            text: hand.sheet.photograph ? qsTr("No picture has come to this tablet yet.") : qsTr("No picture and no paper has come to this tablet yet.")
            bold: true
            size: 36
        }

        Words {
            width: parent.width
            text: qsTr("Take it with a phone or a camera. Plug in its cable, its card or a stick, or copy it to:")
            size: 32
        }

        Words {
            width: parent.width
            text: hand.pictures.folder
            mono: true
            size: 30
            wrapMode: Text.WrapAnywhere
        }

        Words {
            width: parent.width
            text: hand.sheet.hasCamera ? qsTr("Or go back to the camera.") : qsTr("Then press Look again.")
            size: 32
        }
    }

    // ---- the newest first
    GridView {
        id: list

        anchors.left: parent.left
        anchors.right: parent.right
        height: hand.low
        visible: hand.listed && !hand.none
        cellWidth: Math.floor(width / 2)
        cellHeight: Math.floor(height / (height > 400 * Theme.u ? 2 : 1))
        clip: true
        boundsBehavior: Flickable.StopAtBounds
        model: hand.pictures.rows

        delegate: Item {
            id: cell

            required property int index
            required property string key
            required property string title
            required property string line
            required property string note

            width: list.cellWidth
            height: list.cellHeight

            Press {
                id: press

                anchors.fill: parent
                anchors.margins: 5 * Theme.u
                name: cell.note !== "" ? qsTr("Picture %1, %2").arg(cell.index + 1).arg(cell.line) : qsTr("%1, %2").arg(cell.title).arg(cell.line)
                onClicked: hand.sheet.pickFile(cell.key)

                contentItem: Item {}

                Image {
                    x: press.padding
                    y: press.padding
                    width: press.width - 2 * x
                    height: age.y - y - 4 * Theme.u
                    source: cell.note
                    sourceSize.width: 2 * list.cellWidth
                    sourceSize.height: 2 * list.cellHeight
                    fillMode: Image.PreserveAspectFit
                    asynchronous: true
                    autoTransform: true
                }

                Words {
                    visible: cell.note === ""
                    x: press.padding
                    y: press.padding
                    width: press.width - 2 * x
                    height: age.y - y - 4 * Theme.u
                    text: cell.title
                    size: 30
                    whole: false
                    elide: Text.ElideRight
                    horizontalAlignment: Text.AlignHCenter
                    verticalAlignment: Text.AlignVCenter
                }

                Words {
                    id: age

                    x: press.padding
                    y: press.height - height - press.padding
                    width: press.width - 2 * x
                    text: cell.line
                    bold: true
                    size: 30
                    cap: 40
                    maximumLineCount: 1
                    elide: Text.ElideRight
                    fontSizeMode: Text.HorizontalFit
                    minimumPixelSize: Math.round(Theme.least)
                    horizontalAlignment: Text.AlignHCenter
                }
            }
        }
    }

    // ---- what the camera sees, or the one that will be taken
    Box {
        id: frame

        anchors.left: parent.left
        anchors.right: parent.right
        height: hand.low
        visible: !hand.listed
        unit: Theme.u
        theme: Theme.name
        fill: Theme.colours.panel
        ink: Theme.colours.ink
        line: (hand.picked ? 8 : 3) * Theme.u
        corner: Theme.corner

        CameraView {
            anchors.fill: parent
            anchors.margins: 8 * Theme.u
            visible: hand.live
            camera: hand.sheet.camera

            Accessible.role: Accessible.Graphic
            Accessible.name: qsTr("what the camera sees")
        }

        Image {
            anchors.fill: parent
            anchors.margins: 14 * Theme.u
            visible: hand.picked && hand.pictures.picked !== ""
            source: hand.pictures.picked
            sourceSize.width: 2 * width
            sourceSize.height: 2 * height
            fillMode: Image.PreserveAspectFit
            asynchronous: true
            autoTransform: true

            Accessible.role: Accessible.Graphic
            Accessible.name: qsTr("the picture that was picked, %1").arg(hand.pictures.pickedLine)
        }

        Words {
            anchors.fill: parent
            anchors.margins: 14 * Theme.u
            visible: hand.picked && hand.pictures.picked === ""
            text: hand.pictures.pickedLine
            bold: true
            size: 36
            fontSizeMode: Text.Fit
            minimumPixelSize: Math.round(Theme.least)
            horizontalAlignment: Text.AlignHCenter
            verticalAlignment: Text.AlignVCenter
        }
    }

    // ---- where the tag cannot be in the picture
    Item {
        id: chalk

        anchors.left: parent.left
        anchors.right: parent.right
        anchors.bottom: hand.none ? again.top : note.top
        anchors.bottomMargin: 10 * Theme.u
        height: Math.max(digits.height, beside.height)
        visible: hand.sheet.chalk !== ""

        Words {
            id: digits

            anchors.left: parent.left
            anchors.verticalCenter: parent.verticalCenter
            text: hand.sheet.chalk
            mono: true
            bold: true
            size: 56
            cap: 56

            Accessible.role: Accessible.StaticText
            Accessible.ignored: false
            //: %1 four digits
            Accessible.name: qsTr("number to chalk: %1").arg(hand.sheet.chalk)
        }

        Words {
            id: beside

            anchors.left: digits.right
            anchors.leftMargin: 18 * Theme.u
            anchors.right: parent.right
            anchors.verticalCenter: parent.verticalCenter
            //: beside four digits, where the tag cannot be in the picture
            text: qsTr("No tag in it? Chalk this beside the part.")
            size: 30
            cap: 36
            wrapMode: Text.WordWrap
        }
    }

    Pager {
        id: note

        anchors.left: parent.left
        anchors.right: parent.right
        y: again.y - height - 10 * Theme.u
        height: Math.min(implicitHeight, 120 * Theme.u)
        visible: !hand.none
        what: qsTr("what a file counts as")

        Words {
            width: note.room
            visible: text !== ""
            text: hand.listed ? "" : hand.sheet.check
            bold: hand.sheet.checkWarns
            size: 30
        }

        Words {
            width: note.room
            visible: text !== ""
            text: hand.live ? "" : hand.listed ? hand.counts : hand.sheet.byCamera ? qsTr("%1.").arg(hand.pictures.pickedLine) : qsTr("%1. From a file, and marked so.").arg(hand.pictures.pickedLine)
            size: 30
            color: Theme.colours.ink2
        }
    }

    Press {
        id: again

        anchors.left: parent.left
        anchors.bottom: parent.bottom
        width: hand.live ? 180 * Theme.u : parent.width - (more.visible ? more.width + Theme.gap : 0)
        height: hand.listed && !hand.none ? Theme.target : Theme.key
        quiet: hand.live
        title: hand.picked ? qsTr("Another picture") : hand.live ? qsTr("From a file") : hand.sheet.hasCamera ? qsTr("Back to the camera") : qsTr("Look again")
        name: hand.listed && !hand.sheet.hasCamera ? qsTr("Look again for pictures") : title
        size: hand.live ? 32 : 36
        onClicked: {
            if (hand.picked) {
                hand.sheet.pickFile("");
            } else if (hand.sheet.hasCamera) {
                hand.sheet.useCamera(!hand.live);
            } else {
                hand.sheet.lookForPictures();
            }
        }
    }

    Press {
        anchors.left: again.right
        anchors.leftMargin: Theme.gap
        anchors.right: parent.right
        anchors.bottom: parent.bottom
        visible: hand.live
        title: qsTr("Photograph")
        size: 46
        onClicked: hand.sheet.shoot()
    }

    PageKey {
        id: more

        anchors.right: parent.right
        anchors.bottom: parent.bottom
        visible: list.visible && needed
        of: list
        step: list.cellHeight
        what: qsTr("pictures")
    }
}
