// What is written one below the other in a place that may be too low for it: it pages, and a page ends after a whole line.
pragma ComponentBehavior: Bound
import QtQuick
import Brimful

Item {
    id: pager

    default property alias content: column.data
    property alias spacing: column.spacing
    required property string what
    property string words: "" // what it shows, where that changes: then the first page comes again
    property bool dragged: false // a list: with letters as they come it has no key
    readonly property real room: view.width
    readonly property bool needed: column.height > height + 1
    readonly property bool paged: needed && !(dragged && Theme.text === 1)
    // Where a page may end, from the top; the last page begins at such a place too.
    readonly property var ends: pager.paged ? pager.endsIn(pager.blocksIn(column, 0)) : []
    readonly property real last: {
        const least = column.height - pager.height;
        const first = pager.ends.find(end => end >= least - 1);
        return first === undefined || first >= column.height - 1 ? least : first;
    }
    readonly property real shown: {
        const end = pager.lastEnd(view.contentY + pager.height);
        return end <= view.contentY + 1 || view.contentY >= pager.last - 1 ? pager.height : end - view.contentY;
    }

    implicitHeight: column.height
    onWordsChanged: view.contentY = 0
    onEndsChanged: if (!view.moving) {
        view.contentY = view.contentY >= pager.last ? Math.max(0, pager.last) : pager.lastEnd(view.contentY);
    }

    // What may not be cut: lines of text, keys, drawings.
    function blocksIn(item, top) {
        let blocks = [];
        for (let at = 0; at < item.children.length; ++at) {
            const child = item.children[at];
            const y = top + child.y;
            if (!child.visible || child.height <= 0) {
                continue;
            }
            if (child instanceof Text) {
                const line = child.height / Math.max(1, child.lineCount);
                for (let i = 0; i < child.lineCount; ++i) {
                    blocks.push([y + i * line, y + (i + 1) * line]);
                }
            } else if (child instanceof Press || child.children.length === 0) {
                blocks.push([y, y + child.height]);
            } else {
                blocks = blocks.concat(pager.blocksIn(child, y));
            }
        }
        return blocks;
    }

    function endsIn(blocks) {
        const ends = blocks.map(block => block[1]).sort((a, b) => a - b);
        return ends.filter(end => !blocks.some(block => block[0] < end - 1 && block[1] > end + 1));
    }

    function lastEnd(above) {
        return pager.ends.reduce((found, end) => end <= above + 1 ? end : found, 0);
    }

    Item {
        id: sight

        anchors.left: parent.left
        anchors.top: parent.top
        width: view.width
        height: pager.paged ? pager.shown : pager.height
        clip: pager.needed

        Flickable {
            id: view

            width: pager.width - (pager.paged ? Theme.target + 12 * Theme.u : 0)
            height: pager.height
            contentHeight: pager.paged ? pager.last + pager.height : column.height
            interactive: pager.needed
            boundsBehavior: Flickable.StopAtBounds
            onMovementEnded: if (pager.paged && contentY < pager.last) {
                contentY = pager.lastEnd(contentY);
            }

            Column {
                id: column

                width: view.width
            }
        }
    }

    Made {
        wanted: pager.paged

        PageKey {
            anchors.right: pager.right
            anchors.bottom: pager.bottom
            of: view
            what: pager.what
            page: pager.shown
        }
    }
}
