// What the program does not do, and what to watch.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    said: qsTr("What Brimful can't do")
    onBlack: page.tablet.back()

    TitleBar {
        id: bar

        tablet: page.tablet
        title: page.said
    }

    Pager {
        id: limits

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        anchors.top: bar.bottom
        anchors.topMargin: 14 * Theme.u
        anchors.bottom: back.top
        anchors.bottomMargin: 14 * Theme.u
        width: page.width - 2 * Theme.margin
        spacing: 14 * Theme.u
        dragged: true
        what: qsTr("limits")

        Repeater {
            model: page.tablet.about

            Words {
                required property string title

                width: limits.room
                text: title
                size: 32
            }
        }
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
