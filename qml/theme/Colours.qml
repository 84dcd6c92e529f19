// One theme's colours. Every one is required, so that no theme forgets any.
import QtQuick

QtObject {
    required property color paper
    required property color panel
    required property color ink
    required property color ink2
    required property color line
    required property color steel
    required property color water
    required property color waterInk
    required property color gas
    required property color gasInk
    required property color act
    required property color actText
    required property color danger
    required property color dangerText
    required property color warning
    required property color warningText
    required property color caution
    required property color cautionText
    required property color notice
    required property color noticeText
}
