// A press that gives and can't be undone: held for 1.5 seconds, or pressed twice by a switch or a reader.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Press {
    id: hold

    signal given

    property bool again: false
    property bool byKey: false
    readonly property bool held: hold.down || hold.byKey
    property real filled: 0

    black: true
    line: again ? qsTr("Press again within 5 s") : filled > 0 && !held ? qsTr("Hold longer") : qsTr("hold 1.5 s")

    function finish() {
        hold.filled = 0;
        hold.again = false;
        hold.given();
    }

    onHeldChanged: {
        if (held && enabled) {
            fill.restart();
        } else {
            fill.stop();
            late.restart();
        }
    }
    Accessible.onPressAction: {
        if (hold.again) {
            hold.finish();
        } else {
            hold.again = true;
            forget.restart();
        }
    }

    NumberAnimation {
        id: fill

        target: hold
        property: "filled"
        from: 0
        to: 1
        duration: 1500
        onFinished: if (hold.held) {
            hold.finish();
        }
    }

    Timer {
        id: late

        interval: 1500
        onTriggered: hold.filled = 0
    }

    Timer {
        id: forget

        interval: 5000
        onTriggered: hold.again = false
    }

    Rectangle {
        x: 6 * Theme.u
        y: hold.height - 18 * Theme.u
        width: (hold.width - 12 * Theme.u) * hold.filled
        height: 12 * Theme.u
        color: Theme.colours.warning
    }
}
