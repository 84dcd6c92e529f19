// Water or a hand lies on the glass: why nothing answers.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Rectangle {
    id: band

    required property Tablet tablet

    radius: 6 * Theme.u
    color: Theme.signal("notice")
    border.width: Theme.line
    border.color: Theme.colours.ink
    Accessible.role: Accessible.AlertMessage
    Accessible.name: words.text

    Words {
        id: words

        anchors.fill: parent
        anchors.leftMargin: 14 * Theme.u
        anchors.rightMargin: 14 * Theme.u
        anchors.topMargin: 4 * Theme.u
        anchors.bottomMargin: 4 * Theme.u
        //: a key that stops work still answers when one finger rests on it a moment
        text: band.tablet.hasVessel ? qsTr("Wet glass: wipe. One finger, held still, can stop.") : qsTr("Wet glass: wipe.")
        bold: true
        size: 36
        color: Theme.onSignal("notice")
        maximumLineCount: 2
        wrapMode: Text.WordWrap
        elide: Text.ElideRight
        fontSizeMode: Text.Fit
        minimumPixelSize: Math.round(Theme.least)
        lineHeight: 0.9
        verticalAlignment: Text.AlignVCenter
    }
}
