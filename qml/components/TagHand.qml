// The tag by the camera: held before it, it is read by itself; or its code is written.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: hand

    required property Sheet sheet

    Box {
        anchors.left: parent.left
        anchors.right: parent.right
        height: note.y - 10 * Theme.u
        unit: Theme.u
        theme: Theme.name
        fill: Theme.colours.panel
        ink: Theme.colours.ink
        line: 3 * Theme.u
        corner: Theme.corner

        CameraView {
            anchors.fill: parent
            anchors.margins: 8 * Theme.u
            camera: hand.sheet.camera

            Accessible.role: Accessible.Graphic
            Accessible.name: qsTr("what the camera sees")
        }
    }

    Pager {
        id: note

        anchors.left: parent.left
        anchors.right: parent.right
        y: write.y - height - 10 * Theme.u
        height: Math.min(implicitHeight, 120 * Theme.u)
        what: qsTr("how the tag is read")

        Words {
            width: note.room
            text: qsTr("Hold the camera before the tag. It is read by itself.")
            size: 30
        }
    }

    Press {
        id: write

        anchors.left: parent.left
        anchors.right: parent.right
        anchors.bottom: parent.bottom
        title: qsTr("Write its code")
        size: 36
        onClicked: hand.sheet.useCamera(false)
    }
}
