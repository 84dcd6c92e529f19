// What holds the vessel, why, and the only way on.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: face

    required property VesselPage vessel

    Glyph {
        id: sign

        anchors.left: parent.left
        anchors.leftMargin: 12 * Theme.u
        y: 6 * Theme.u
        width: 60 * Theme.u
        height: 60 * Theme.u
        name: face.vessel.glyph
        ink: Theme.colours.ink
        theme: Theme.name
    }

    Column {
        anchors.left: sign.right
        anchors.leftMargin: 20 * Theme.u
        anchors.right: parent.right
        anchors.rightMargin: 8 * Theme.u
        anchors.verticalCenter: parent.verticalCenter

        Words {
            width: parent.width
            height: Math.min(implicitHeight, face.height - (remedy.visible ? remedy.height : 0))
            text: face.vessel.message !== "" ? face.vessel.message : face.vessel.reason
            bold: true
            size: 34
            maximumLineCount: Theme.text > 1 ? 4 : face.vessel.remedy === "" ? 3 : 2
            elide: Text.ElideRight
            fontSizeMode: Text.Fit
            minimumPixelSize: Math.round(Theme.least)
            whole: false // the list behind says it whole
        }

        Words {
            id: remedy

            width: parent.width
            text: face.vessel.who === "" ? face.vessel.remedy : qsTr("%1 %2.").arg(face.vessel.remedy).arg(face.vessel.who)
            visible: text !== "" && !Theme.large
            size: 32
            cap: 32
            maximumLineCount: 1
            elide: Text.ElideRight
            fontSizeMode: Text.HorizontalFit
            minimumPixelSize: Math.round(Theme.least)
            whole: false
        }
    }
}
