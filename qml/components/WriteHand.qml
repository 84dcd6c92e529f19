// Words by hand: phrases that may be pressed first, a line to write on, the keys when they are asked for.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Pager {
    id: hand

    required property Sheet sheet
    required property bool keyed // the keys are on the glass
    readonly property bool writing: field.activeFocus

    signal keysAsked

    // A line with nothing on it takes what is typed; one with a phrase waits until it is touched.
    function claim() {
        if (!field.activeFocus && field.text === "") {
            field.forceActiveFocus();
        }
    }

    spacing: Theme.gap
    dragged: true
    what: qsTr("what to write")

    Component.onCompleted: field.forceActiveFocus()

    WriteField {
        id: field

        width: hand.room
        name: hand.sheet.ask
        text: hand.sheet.written
        onTextEdited: hand.sheet.written = text
    }

    Words {
        visible: hand.keyed && hand.sheet.message !== ""
        width: hand.room
        text: hand.sheet.message
        bold: true
        size: 32
        Accessible.ignored: false
        Accessible.role: Accessible.AlertMessage
        Accessible.name: text
    }

    Press {
        visible: hand.sheet.phrases && !hand.keyed
        width: hand.room
        height: Theme.target
        title: qsTr("Write")
        name: qsTr("Write with keys")
        size: 34
        onClicked: hand.keysAsked()
    }

    Repeater {
        model: hand.keyed ? null : hand.sheet.options

        Press {
            required property string key
            required title

            width: hand.room
            height: Math.max(Theme.target, implicitContentHeight + topPadding + bottomPadding)
            size: 34
            grows: true
            onClicked: hand.sheet.choose(key)
        }
    }
}
