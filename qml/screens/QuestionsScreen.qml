// What may be asked in person: what stands out in the record, each as a question. It holds nothing and accuses nobody.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property QuestionsPage list: page.tablet.questions

    said: "%1. %2".arg(bar.title).arg(page.list.looked)
    onBlack: page.tablet.back()

    TitleBar {
        id: bar

        tablet: page.tablet
        title: qsTr("Questions to ask in person")
    }

    Words {
        id: looked

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        anchors.top: bar.bottom
        anchors.topMargin: 10 * Theme.u
        width: page.width - 2 * Theme.margin
        text: page.list.looked
        size: 32
        cap: 44
    }

    Pager {
        id: nothing

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        anchors.top: looked.bottom
        anchors.topMargin: 14 * Theme.u
        anchors.bottom: back.top
        anchors.bottomMargin: 14 * Theme.u
        width: page.width - 2 * Theme.margin
        visible: page.list.nothing !== ""
        what: qsTr("what was looked at")

        Words {
            width: nothing.room
            text: page.list.nothing
            size: 36
        }
    }

    RowsView {
        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        anchors.top: looked.bottom
        anchors.topMargin: 14 * Theme.u
        anchors.bottom: back.top
        anchors.bottomMargin: 14 * Theme.u
        width: page.width - 2 * Theme.margin
        what: qsTr("questions")
        pressable: false
        model: page.list.questions
    }

    Press {
        id: back

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: page.height - Theme.key - 14 * Theme.u
        width: 300 * Theme.u
        black: true
        title: qsTr("Back")
        name: qsTr("Back to Set up")
        size: 42
        onClicked: page.tablet.back()
    }
}
