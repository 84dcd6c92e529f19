// Of what was scanned, or of another vessel past its limit, until it is answered.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Rectangle {
    id: band

    required property Tablet tablet

    radius: 6 * Theme.u
    color: Theme.signal("warning")
    border.width: Theme.line
    border.color: Theme.colours.ink
    Accessible.role: Accessible.AlertMessage
    Accessible.name: band.tablet.band

    Words {
        anchors.left: parent.left
        anchors.leftMargin: 14 * Theme.u
        anchors.right: keys.left
        anchors.rightMargin: Theme.gap
        y: 4 * Theme.u
        height: parent.height - 2 * y
        text: band.tablet.band
        bold: true
        size: 30
        color: Theme.onSignal("warning")
        maximumLineCount: 2
        wrapMode: Text.WordWrap
        elide: Text.ElideRight
        fontSizeMode: Text.Fit
        minimumPixelSize: Math.round(Theme.least)
        lineHeight: 0.9
        verticalAlignment: Text.AlignVCenter
    }

    Row {
        id: keys

        anchors.right: parent.right
        anchors.verticalCenter: parent.verticalCenter
        spacing: Theme.gap

        Press {
            visible: band.tablet.bandGo !== ""
            width: 150 * Theme.u
            height: Theme.target
            padding: 4 * Theme.u
            //: to the vessel that the message names
            title: qsTr("Go there")
            name: band.tablet.bandGo
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
