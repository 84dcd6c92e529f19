// Work whose time ran out, with the sound, until somebody says that it was heard. Its border turns once a second, under the three
// flashes of WCAG 2.3.1.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Rectangle {
    id: band

    required property Tablet tablet
    property bool turned: false

    radius: 6 * Theme.u
    color: Theme.colours.danger
    border.width: 8 * Theme.u
    border.color: turned ? Theme.colours.paper : Theme.colours.ink
    Accessible.role: Accessible.AlertMessage
    Accessible.name: band.tablet.alarm

    Timer { // a finger that was on its way to what stood here before has heard nothing
        id: fresh

        interval: 600
        running: true
    }

    Timer {
        interval: 500
        running: true
        repeat: true
        onTriggered: band.turned = !band.turned
    }

    Words {
        anchors.left: parent.left
        anchors.leftMargin: 22 * Theme.u
        anchors.right: heard.left
        anchors.rightMargin: 12 * Theme.u
        y: 6 * Theme.u
        height: parent.height - 2 * y
        text: band.tablet.alarm
        bold: true
        size: 36
        cap: 36
        color: Theme.colours.dangerText
        maximumLineCount: 2
        lineHeight: 0.9
        wrapMode: Text.WordWrap
        elide: Text.ElideRight
        fontSizeMode: Text.Fit
        minimumPixelSize: Math.round(Theme.least)
        verticalAlignment: Text.AlignVCenter
    }

    Press {
        id: heard

        anchors.right: parent.right
        width: 180 * Theme.u
        height: Theme.target
        enabled: !band.tablet.wet
        //: in place of "I hear it" while the glass is wet; quiets the alarm, ends nothing else
        title: band.tablet.wet ? qsTr("Wipe first") : band.tablet.canSound ? qsTr("I hear it") : qsTr("I see it")
        name: band.tablet.wet ? qsTr("Wet glass: wipe") : band.tablet.canSound ? qsTr("I hear it: the sound stops, nothing else") : qsTr("I see it: the alarm goes, nothing else")
        size: 36
        onPressed: if (!fresh.running) {
            band.tablet.hearAlarm();
        }
        Accessible.onPressAction: band.tablet.hearAlarm()
    }
}
