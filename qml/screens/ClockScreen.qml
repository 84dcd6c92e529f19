// Released work or a fire watch: the time that is left, read from six metres, and the acts that end it.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property ClockPage clock: page.tablet.clock
    readonly property real side: 282 * Theme.u
    // Upright, the task, what ends the work, and the limits stand in one row.
    readonly property int keysAcross: 1 + (done.visible ? 1 : 0) + (limits.visible ? 1 : 0)
    readonly property real wide: page.portrait ? page.width - 2 * Theme.margin : page.width - side - 3 * Theme.margin

    onBlack: page.tablet.openTask()

    PlateBar {
        id: bar

        tablet: page.tablet
    }

    Words {
        id: digits

        x: Theme.margin
        y: bar.height + (page.portrait ? 4 : 38) * Theme.u
        width: page.wide
        height: 250 * Theme.u
        text: page.clock.remaining
        bold: true
        size: 320
        wrapMode: Text.NoWrap
        fontSizeMode: Text.HorizontalFit
        minimumPixelSize: Math.round(Theme.least)
        verticalAlignment: Text.AlignVCenter
        horizontalAlignment: Text.AlignHCenter
        Accessible.ignored: false
        Accessible.role: Accessible.StaticText
        Accessible.name: qsTr("%1 left").arg(page.clock.remaining)
    }

    Rectangle {
        id: bar2

        x: Theme.margin
        y: bar.height + (page.portrait ? 256 : 298) * Theme.u
        width: page.wide
        height: 30 * Theme.u
        color: Theme.colours.panel
        border.width: Theme.line
        border.color: Theme.colours.ink

        Rectangle {
            width: parent.width * page.clock.gone
            height: parent.height
            color: Theme.colours.ink
        }
    }

    VesselDrawing {
        id: drawing

        x: Theme.margin
        y: bar2.y + bar2.height + 12 * Theme.u
        width: (page.portrait ? page.wide : 400 * Theme.u)
        height: page.portrait ? 140 * Theme.u : acts.y - y - 16 * Theme.u
        picture: page.clock.picture
        labels: false
        unit: Theme.u * 0.8
        theme: Theme.name

        Accessible.role: Accessible.Graphic
        Accessible.name: page.tablet.vessel.spoken
    }

    Column {
        x: page.portrait ? Theme.margin : drawing.x + drawing.width + 24 * Theme.u
        y: page.portrait ? drawing.y + drawing.height + 8 * Theme.u : bar2.y + bar2.height + 14 * Theme.u
        width: page.portrait ? page.wide : page.wide - drawing.width - 24 * Theme.u
        spacing: 1 * Theme.u

        Repeater {
            model: page.clock.lines

            Item {
                id: termLine

                required property string title
                required property string line

                width: parent.width
                height: termWords.height

                Words {
                    width: 100 * Theme.u
                    text: termLine.title
                    bold: true
                    size: 30
                }

                Words {
                    id: termWords

                    x: 104 * Theme.u
                    width: parent.width - x
                    text: termLine.line
                    size: 30
                    maximumLineCount: 2
                    elide: Text.ElideRight
                }
            }
        }
    }

    Press {
        id: task

        x: page.portrait ? Theme.margin : page.width - Theme.margin - width
        y: page.portrait ? acts.y - height - Theme.gap : bar.height + 16 * Theme.u
        width: page.portrait ? (page.wide - (page.keysAcross - 1) * Theme.gap) / page.keysAcross : page.side
        height: (page.portrait ? 130 : done.visible ? 176 : 230) * Theme.u
        black: true
        enabled: page.clock.task !== ""
        title: page.clock.task
        line: page.clock.taskLine
        size: 46
        onClicked: page.tablet.openTask()
    }

    Press {
        id: done

        visible: page.clock.done !== ""
        x: page.portrait ? task.x + task.width + Theme.gap : task.x
        y: page.portrait ? task.y : task.y + task.height + Theme.gap
        width: task.width
        height: page.portrait ? task.height : Theme.key + 24 * Theme.u
        title: page.clock.done
        line: page.portrait ? "" : qsTr("when it is done")
        name: qsTr("%1, when it is done").arg(title)
        size: page.portrait ? 30 : 34
        lines: 3
        padding: 4 * Theme.u
        onClicked: page.tablet.openDone()
    }

    Rectangle {
        id: limits

        visible: page.clock.stopAt !== ""
        x: page.portrait ? page.width - Theme.margin - width : task.x
        y: page.portrait ? task.y : done.visible ? done.y + done.height + Theme.gap : task.y + task.height + Theme.gap
        width: task.width
        height: page.portrait ? 130 * Theme.u : acts.y - y - Theme.gap
        radius: Theme.corner
        color: Theme.colours.panel
        border.width: Theme.line
        border.color: Theme.colours.ink

        Column {
            anchors.centerIn: parent

            Words {
                anchors.horizontalCenter: parent.horizontalCenter
                visible: page.clock.stopAt !== ""
                text: qsTr("Stop at")
                size: 32
                color: Theme.colours.ink2
            }

            Words {
                anchors.horizontalCenter: parent.horizontalCenter
                text: page.clock.stopAt
                bold: true
                size: 62
                width: limits.width - 24 * Theme.u
                horizontalAlignment: Text.AlignHCenter
                maximumLineCount: 1
                fontSizeMode: Text.HorizontalFit
                minimumPixelSize: Math.round(Theme.least)
            }

            Words {
                anchors.horizontalCenter: parent.horizontalCenter
                visible: page.clock.leaveAt !== ""
                text: qsTr("Leave at %1").arg(page.clock.leaveAt)
                size: 32
                wrapMode: Text.NoWrap
            }
        }
    }

    Item {
        id: acts

        x: Theme.margin
        y: page.height - height - (page.tablet.demo ? 8 : 18) * Theme.u
        width: page.width - 2 * Theme.margin
        height: (page.portrait ? 258 : 120) * Theme.u

        Row {
            id: ends

            spacing: Theme.gap
            y: page.portrait ? 138 * Theme.u : 0

            Repeater {
                model: page.clock.ends

                Press {
                    required property string key
                    required title

                    width: ((page.portrait ? acts.width : acts.width - 382 * Theme.u - Theme.gap) - Theme.gap * (page.clock.ends.count - 1)) / Math.max(1, page.clock.ends.count)
                    height: Theme.key
                    size: 34
                    onPressed: page.tablet.happened(key)
                    Accessible.onPressAction: page.tablet.happened(key)
                }
            }
        }

        Press {
            anchors.right: parent.right
            width: page.portrait ? acts.width : 382 * Theme.u
            height: Theme.key
            danger: true
            title: page.clock.watch ? qsTr("Smoke or heat") : qsTr("STOP")
            size: page.clock.watch ? 44 : 58
            onPressed: page.clock.watch ? page.tablet.happened("smoke") : page.tablet.stop()
            Accessible.onPressAction: page.clock.watch ? page.tablet.happened("smoke") : page.tablet.stop()
        }
    }
}
