// Keys on the glass, for the few things that are written: ten a row, no word is guessed.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: board

    property bool capitals: true
    property bool digits: false
    readonly property var lettersNow: digits ? ["1234567890", "-/.,:;'()+", "%&?_=*#$~"] : capitals ? ["QWERTYUIOP", "ASDFGHJKL-", "ZXCVBNM"] : ["qwertyuiop", "asdfghjkl-", "zxcvbnm"]
    LayoutMirroring.enabled: false // letters stand as on every keyboard
    LayoutMirroring.childrenInherit: true

    readonly property real pitch: (width + keyGap) / 10
    readonly property real keyGap: 10 * Theme.u

    signal typed(string text)
    signal erased

    function type(text: string) {
        board.typed(text);
        board.capitals = false;
    }

    implicitHeight: 4 * Theme.target + 3 * keyGap

    Repeater {
        model: 3

        Row {
            id: keyRow

            required property int index
            readonly property string letters: board.lettersNow[index]

            x: index === 2 && !board.digits ? board.pitch * 1.5 : 0
            y: index * (Theme.target + board.keyGap)
            spacing: board.keyGap

            Repeater {
                model: keyRow.letters.length

                LetterKey {
                    required property int index

                    width: board.pitch - board.keyGap
                    height: Theme.target
                    padding: 0
                    size: 42
                    focusPolicy: Qt.NoFocus
                    title: keyRow.letters.charAt(index)
                    name: qsTr("Key %1").arg(title)
                    onClicked: board.type(title)
                }
            }
        }
    }

    Press {
        visible: !board.digits
        y: 2 * (Theme.target + board.keyGap)
        width: board.pitch * 1.5 - board.keyGap
        height: Theme.target
        padding: 0
        focusPolicy: Qt.NoFocus
        title: board.capitals ? qsTr("abc") : qsTr("ABC")
        name: board.capitals ? qsTr("Small letters") : qsTr("Capitals")
        size: 34
        quiet: true
        onClicked: board.capitals = !board.capitals
    }

    Press {
        x: board.width - width
        y: 2 * (Theme.target + board.keyGap)
        width: board.pitch * (board.digits ? 1 : 1.5) - board.keyGap
        height: Theme.target
        focusPolicy: Qt.NoFocus
        glyph: "erase"
        name: qsTr("Erase a letter")
        quiet: true
        onClicked: board.erased()
    }

    Press {
        y: 3 * (Theme.target + board.keyGap)
        width: board.pitch * 1.5 - board.keyGap
        height: Theme.target
        padding: 0
        focusPolicy: Qt.NoFocus
        title: board.digits ? qsTr("ABC") : qsTr("123")
        name: board.digits ? qsTr("Letters") : qsTr("Digits and signs")
        size: 34
        quiet: true
        onClicked: board.digits = !board.digits
    }

    Press {
        x: board.pitch * 1.5
        y: 3 * (Theme.target + board.keyGap)
        width: board.width - 2 * x
        height: Theme.target
        focusPolicy: Qt.NoFocus
        title: qsTr("space")
        size: 34
        onClicked: board.typed(" ")
    }
}
