// Everything that a hand presses: a key, a tab, a card, the black button. One word or two lines, a sign before it.
pragma ComponentBehavior: Bound
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
    property bool grows: false // the key is as high as its words, not they as small as the key
    property string below: line // what stands under the title
    property real endRoom: 0 // kept free at the end

    readonly property bool cutNow: (contentItem as PressFace)?.cut ?? false
    property bool cut: false // its words have no room, once all stands where it will stand
    readonly property color inkHere: danger ? Theme.colours.dangerText : black && enabled ? Theme.colours.actText : Theme.colours.ink

    onCutNowChanged: settled.restart()

    Timer {
        id: settled

        interval: 1
        onTriggered: press.cut = press.cutNow
    }

    implicitWidth: Theme.key
    implicitHeight: Theme.key
    padding: 8 * Theme.u
    focusPolicy: Qt.StrongFocus
    hoverEnabled: false

    Accessible.role: Accessible.Button
    Accessible.name: press.name
    Accessible.onPressAction: press.clicked()

    // Enter is the black button's, unless somebody went to another key by keyboard: then it is that key's.
    Keys.onPressed: event => {
        event.accepted = press.visualFocus && !press.black && (event.key === Qt.Key_Return || event.key === Qt.Key_Enter);
        if (event.accepted && !event.isAutoRepeat) {
            press.Accessible.pressAction();
        }
    }

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

    contentItem: PressFace {
        title: press.title
        line: press.below
        glyph: press.glyph
        size: press.size
        lineSize: press.lineSize
        bold: press.bold
        leftAligned: press.leftAligned
        hangs: press.hangs
        lines: press.lines
        ink: press.inkHere
        grows: press.grows
        room: press.availableWidth - press.endRoom
        tall: press.height // letters are lower than their lines
    }
}
