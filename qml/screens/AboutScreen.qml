// What the program does not do, and what to watch.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    onBlack: page.tablet.back()

    Words {
        id: heading

        x: Theme.margin
        y: 24 * Theme.u
        text: qsTr("What Brimful can't do")
        bold: true
        size: 46
    }

    ListView {
        id: list

        x: Theme.margin
        anchors.top: heading.bottom
        anchors.topMargin: 14 * Theme.u
        anchors.bottom: back.top
        anchors.bottomMargin: 14 * Theme.u
        width: page.width - 2 * Theme.margin
        clip: true
        spacing: 14 * Theme.u
        model: page.tablet.about
        boundsBehavior: Flickable.StopAtBounds

        delegate: Words {
            required property string title

            width: list.width
            text: title
            size: 32
        }
    }

    Press {
        id: back

        x: Theme.margin
        y: page.height - Theme.key - 14 * Theme.u
        width: 300 * Theme.u
        black: true
        title: qsTr("Back")
        name: qsTr("Back to Set up")
        size: 42
        onClicked: page.tablet.back()
    }
}
