// The bar of a screen that is no vessel's: its title, which gives way where something is told.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

TopBar {
    id: bar

    required property Tablet tablet
    required property string title

    Words {
        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        anchors.verticalCenter: parent.verticalCenter
        visible: !messages.told
        text: bar.title
        bold: true
        size: 46
        cap: 72
        maximumLineCount: 1
        elide: Text.ElideRight
        fontSizeMode: Text.HorizontalFit
        minimumPixelSize: Math.round(Theme.least)
    }

    Messages {
        id: messages

        anchors.left: parent.left
        anchors.leftMargin: 6 * Theme.u
        anchors.right: parent.right
        anchors.rightMargin: 6 * Theme.u
        y: 6 * Theme.u
        tablet: bar.tablet
    }
}
