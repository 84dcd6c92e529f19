// Of another vessel past its limit, or of what was scanned. It lies over the plate of any screen, between Back and Speak up, until
// it is answered: no button is covered, nothing moves under a finger.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Rectangle {
    id: band

    required property Tablet tablet
    readonly property bool portrait: parent !== null && parent.height > parent.width

    anchors.left: parent.left
    anchors.leftMargin: (portrait ? 6 : 202) * Theme.u
    anchors.right: parent.right
    anchors.rightMargin: (portrait ? 6 : 142) * Theme.u
    y: (portrait ? 100 : 6) * Theme.u
    height: Theme.target
    visible: band.tablet.band !== "" && band.tablet.alarm === ""
    radius: 6 * Theme.u
    color: Theme.signal("warning")
    border.width: Theme.line
    border.color: Theme.colours.ink
    Accessible.role: Accessible.AlertMessage
    Accessible.name: band.tablet.band

    MouseArea { // the plate beneath is not touched through it
        anchors.fill: parent
    }

    Words {
        anchors.left: parent.left
        anchors.leftMargin: 14 * Theme.u
        anchors.right: keys.left
        anchors.rightMargin: Theme.gap
        anchors.verticalCenter: parent.verticalCenter
        text: band.tablet.band
        bold: true
        size: 30
        color: Theme.onSignal("warning")
        maximumLineCount: 2
        elide: Text.ElideRight
        lineHeight: 0.9
    }

    Row {
        id: keys

        anchors.right: parent.right
        anchors.verticalCenter: parent.verticalCenter
        spacing: Theme.gap

        Press {
            visible: band.tablet.bandGo !== ""
            width: 250 * Theme.u
            height: Theme.target
            lines: 1
            title: band.tablet.bandGo
            size: 32
            onClicked: band.tablet.bandGoThere()
        }

        Press {
            width: 130 * Theme.u
            height: Theme.target
            lines: 1
            //: put the message aside and go on here
            title: qsTr("Stay")
            size: 32
            onClicked: band.tablet.bandStay()
        }
    }
}
