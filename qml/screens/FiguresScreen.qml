// What may be asked of this vessel as a plan: one key a figure.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Page {
    id: page

    readonly property int columns: page.portrait ? 2 : 3

    said: qsTr("A plan. The test decides. Nothing is recorded.")

    PlateBar {
        id: bar

        tablet: page.tablet
    }

    Words {
        id: plan

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: bar.height + 10 * Theme.u
        width: page.width - 2 * Theme.margin
        text: qsTr("A plan. The test decides. Nothing is recorded.")
        size: 34
        bold: true
    }

    Pager {
        id: all

        anchors.left: parent.left
        anchors.leftMargin: Theme.margin
        y: plan.y + plan.height + 14 * Theme.u
        width: page.width - 2 * Theme.margin
        height: Math.min(implicitHeight, page.height - y - 12 * Theme.u)
        what: qsTr("plans")

        Grid {
            columns: page.columns
            spacing: Theme.gap

            Repeater {
                model: page.tablet.figures

                Press {
                    required property string key
                    required title
                    required line

                    width: (all.room - (page.columns - 1) * Theme.gap) / page.columns
                    height: Theme.key + (Theme.text > 1 ? 66 : 18) * Theme.u
                    size: 40
                    leftAligned: true
                    onClicked: page.tablet.openPart(key)
                }
            }
        }
    }
}
