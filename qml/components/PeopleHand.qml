// Who signs: those who may, as keys; those who may not, and why.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Pager {
    id: hand

    required property Sheet sheet

    spacing: 12 * Theme.u
    dragged: true
    what: qsTr("people")

    Grid {
        columns: 2
        spacing: Theme.gap

        Repeater {
            model: hand.sheet.people

            Press {
                required property string key
                required title
                required line

                width: (hand.room - Theme.gap) / 2
                height: Theme.key
                size: 42
                onClicked: hand.sheet.pickPerson(key)
            }
        }
    }

    Words {
        visible: hand.sheet.people.count === 0
        width: hand.room
        text: qsTr("Nobody on this tablet may sign this.")
        bold: true
        size: 36
    }

    Repeater {
        model: hand.sheet.others

        Words {
            required property string line

            width: hand.room
            text: line
            size: 30
            color: Theme.colours.ink2
        }
    }
}
