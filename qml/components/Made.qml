// What stands here is made only while it is wanted, and goes when it is not: a screen is quick that makes little.
pragma ComponentBehavior: Bound
import QtQuick

Repeater {
    id: made

    required property bool wanted
    readonly property Item item: count > 0 ? itemAt(0) : null

    model: wanted ? 1 : 0
}
