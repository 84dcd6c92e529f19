// Released work or a fire watch: the time that is left, read from six metres, the sweeps, and the acts that end it.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property ClockPage clock: page.tablet.clock
    readonly property real side: 282 * Theme.u
    readonly property bool watch: page.clock.watch
    property bool full: Theme.large // words that fill their keys: no second lines, higher keys
    readonly property real rowHeight: (full ? 174 : 130) * Theme.u
    // Upright, the task, what ends the work, and the limits stand in one row.
    readonly property int keysAcross: 1 + (done.visible ? 1 : 0) + (limits.visible ? 1 : 0)
    readonly property real wide: page.portrait ? page.width - 2 * Theme.margin : page.width - side - 3 * Theme.margin

    said: page.tablet.plate.spoken
    onBlack: page.tablet.openTask()

    PlateBar {
        id: bar

        tablet: page.tablet
    }

    Words {
        id: digits

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: bar.height + (page.portrait ? 24 : 38) * Theme.u
        width: page.wide
        height: 250 * Theme.u
        text: page.clock.remaining
        bold: true
        size: 320
        cap: 320
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

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
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

        // Sweeps: hollow where one was made, solid where one is to come.
        Repeater {
            model: page.clock.swept

            SweepMark {
                required property double modelData

                x: Math.max(0, Math.min(1, modelData)) * (bar2.width - 30 * Theme.u) + 15 * Theme.u - width / 2
                y: -height / 2
                made: true
            }
        }

        Repeater {
            model: page.clock.coming

            SweepMark {
                required property double modelData

                x: Math.max(0, Math.min(1, modelData)) * (bar2.width - 30 * Theme.u) + 15 * Theme.u - width / 2
                y: -height / 2
                made: false
            }
        }
    }

    VesselDrawing {
        id: drawing

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: bar2.y + bar2.height + 12 * Theme.u
        width: page.portrait ? page.wide : (Theme.large ? 220 : 400) * Theme.u
        height: page.portrait ? 140 * Theme.u : acts.y - y - 16 * Theme.u
        picture: page.clock.picture
        labels: false
        sweep: true
        unit: Theme.u * 0.8
        theme: Theme.name

        Accessible.role: Accessible.Graphic
        Accessible.name: page.tablet.vessel.spoken
    }

    Pager {
        id: terms

        readonly property bool stacked: !page.watch && (Theme.large || widest > 100 * Theme.u)
        readonly property real column: page.watch ? (24 + 24 * Theme.text) * Theme.u : 104 * Theme.u
        property real widest: 0

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin + (page.portrait ? 0 : drawing.width + Theme.margin)
        y: page.portrait ? drawing.y + drawing.height + 8 * Theme.u : bar2.y + bar2.height + 14 * Theme.u
        width: page.portrait ? page.wide : page.wide - drawing.width - Theme.margin
        height: Math.min(implicitHeight, (page.portrait ? task.y : acts.y) - y - 8 * Theme.u)
        spacing: 1 * Theme.u
        what: page.watch ? qsTr("the places") : qsTr("the terms")

        Repeater {
            model: page.clock.lines

            Item {
                id: termLine

                required property string title
                required property string line

                width: terms.room
                height: termWords.y + termWords.height

                Words {
                    id: termTitle

                    anchors.left: parent.left
                    text: termLine.title
                    bold: true
                    size: 30
                    wrapMode: Text.NoWrap
                    onImplicitWidthChanged: terms.widest = Math.max(terms.widest, implicitWidth)
                    Component.onCompleted: terms.widest = Math.max(terms.widest, implicitWidth)
                }

                Words {
                    id: termWords

                    anchors.left: parent.left
                    anchors.leftMargin: terms.stacked ? 0 : terms.column
                    anchors.right: parent.right
                    y: terms.stacked ? termTitle.height : 0
                    text: termLine.line
                    size: 30
                }
            }
        }
    }

    Press {
        id: task

        anchors.left: parent.left
        anchors.leftMargin: page.portrait ? Theme.margin : page.width - Theme.margin - width
        y: page.portrait ? acts.y - height - Theme.gap : bar.height + 16 * Theme.u
        width: page.portrait ? (page.wide - (page.keysAcross - 1) * Theme.gap) / page.keysAcross : page.side
        height: page.portrait ? page.rowHeight : (done.visible ? 176 : 230) * Theme.u
        black: true
        enabled: page.clock.task !== ""
        title: page.clock.task
        line: page.clock.taskLine
        size: 46
        onClicked: page.tablet.openTask()
    }

    Press {
        id: done

        readonly property bool brief: page.full // its name says when

        visible: page.clock.done !== "" && !page.watch
        anchors.left: parent.left
        anchors.leftMargin: task.anchors.leftMargin + (page.portrait ? task.width + Theme.gap : 0)
        y: page.portrait ? task.y : task.y + task.height + Theme.gap
        width: task.width
        height: page.portrait ? task.height : Theme.key + 24 * Theme.u
        title: page.clock.done
        line: page.portrait || brief ? "" : page.clock.doneLine
        name: qsTr("%1, %2").arg(title).arg(page.clock.doneLine)
        size: page.portrait ? 30 : 34
        lines: page.full ? 4 : 3
        onCutChanged: page.full = page.full || cut
        padding: 4 * Theme.u
        onClicked: page.tablet.openDone()
    }

    Rectangle {
        id: limits

        visible: page.clock.stopAt !== "" || (page.watch && page.clock.sweeps.count > 0)
        anchors.right: parent.right
        anchors.rightMargin: Theme.margin
        y: page.portrait ? task.y : done.visible ? done.y + done.height + Theme.gap : task.y + task.height + Theme.gap
        width: task.width
        height: page.portrait ? page.rowHeight : acts.y - y - Theme.gap
        radius: Theme.corner
        color: Theme.colours.panel
        border.width: Theme.line
        border.color: Theme.colours.ink

        Column {
            id: apart

            readonly property real needed: stop.implicitHeight + at.implicitHeight + (page.clock.leaveAt === "" ? 0 : leave.implicitHeight)
            readonly property bool fits: !Theme.large && needed < limits.height + 30 * Theme.u && leave.implicitWidth < limits.width - 12 * Theme.u

            anchors.centerIn: parent
            visible: fits && !page.watch

            Words {
                id: stop

                anchors.horizontalCenter: parent.horizontalCenter
                text: qsTr("Stop at")
                size: 32
                color: Theme.colours.ink2
            }

            Words {
                id: at

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
                id: leave

                anchors.horizontalCenter: parent.horizontalCenter
                visible: page.clock.leaveAt !== ""
                text: qsTr("Leave at %1").arg(page.clock.leaveAt)
                size: 32
                wrapMode: Text.NoWrap
            }
        }

        Words {
            anchors.fill: parent
            anchors.margins: 8 * Theme.u
            visible: !apart.fits && !page.watch
            text: page.clock.leaveAt === "" ? qsTr("Stop at %1").arg(page.clock.stopAt) : qsTr("Stop at %1\nLeave at %2").arg(page.clock.stopAt).arg(page.clock.leaveAt)
            bold: true
            size: 48
            cap: 60
            wrapMode: Text.WordWrap
            fontSizeMode: Text.Fit
            minimumPixelSize: Math.round(Theme.least)
            horizontalAlignment: Text.AlignHCenter
            verticalAlignment: Text.AlignVCenter
        }
    }

    // All of them, or, where there is less room, those to come: the bar has them all.
    Column {
        id: sweeps

        readonly property bool all: page.clock.sweeps.count * (oneSweep.implicitHeight + spacing) < height

        visible: limits.visible && page.watch
        anchors.fill: limits
        anchors.margins: 10 * Theme.u
        spacing: 6 * Theme.u

        Repeater {
            model: page.clock.sweeps

            Item {
                id: sweep

                required property string title
                required property string line
                required property bool chosen

                visible: chosen || sweeps.all
                width: sweeps.width
                height: when.height

                Accessible.ignored: false
                Accessible.role: Accessible.ListItem
                Accessible.name: qsTr("%1, %2").arg(title).arg(line)

                Words {
                    id: when

                    anchors.left: parent.left
                    text: sweep.title
                    bold: true
                    size: 30
                    cap: 38
                    wrapMode: Text.NoWrap
                }

                Words {
                    anchors.left: when.right
                    anchors.leftMargin: 8 * Theme.u
                    anchors.right: parent.right
                    anchors.verticalCenter: when.verticalCenter
                    text: sweep.line
                    bold: sweep.chosen
                    size: 30
                    cap: 38
                    wrapMode: Text.NoWrap
                    fontSizeMode: Text.HorizontalFit
                    minimumPixelSize: Math.round(Theme.least)
                    horizontalAlignment: Text.AlignRight
                }
            }
        }
    }

    Words {
        id: oneSweep

        visible: false
        text: "0"
        bold: true
        size: 30
        cap: 38
    }

    Item {
        id: acts

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: page.height - height - (page.tablet.demo ? 8 : 18) * Theme.u
        width: page.width - 2 * Theme.margin
        height: (page.portrait ? 258 : 120) * Theme.u

        Row {
            id: ends

            readonly property int keys: page.clock.ends.count + (handOn.visible ? 1 : 0) + (endWatch.visible ? 1 : 0)
            readonly property real key: ((page.portrait ? acts.width : acts.width - 382 * Theme.u - Theme.gap) - Theme.gap * (keys - 1)) / Math.max(1, keys)

            anchors.left: parent.left
            spacing: Theme.gap
            y: page.portrait ? 138 * Theme.u : 0

            Press {
                id: handOn

                visible: page.clock.handOn !== ""
                width: ends.key
                height: Theme.key
                title: page.clock.handOn
                line: page.clock.handOnLine
                below: Theme.large ? "" : line
                size: 32
                onClicked: page.tablet.openHandOn()
            }

            Repeater {
                model: page.clock.ends

                StopPress {
                    required property string key
                    required title

                    width: ends.key
                    height: Theme.key
                    size: 34
                    onAct: page.tablet.happened(key)
                }
            }

            Press {
                id: endWatch

                visible: page.watch && page.clock.done !== ""
                width: ends.key
                height: Theme.key
                broken: !page.clock.over
                title: page.clock.done
                line: page.clock.doneLine
                size: 34
                onClicked: page.tablet.openDone()
            }
        }

        StopPress {
            anchors.right: parent.right
            width: page.portrait ? acts.width : 382 * Theme.u
            height: Theme.key
            danger: true
            title: page.clock.watch ? qsTr("Smoke or heat") : qsTr("STOP")
            size: page.clock.watch ? 44 : 58
            onAct: page.clock.watch ? page.tablet.happened("smoke") : page.tablet.stop()
        }
    }
}
