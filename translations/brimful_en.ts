<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="en" sourcelanguage="en">
<context>
    <name>brimful::text</name>
    <message numerus="yes">
        <source>Not %1&apos;s PIN. %n tries left.</source>
        <translation>
            <numerusform>Not %1&apos;s PIN. %n try left.</numerusform>
            <numerusform>Not %1&apos;s PIN. %n tries left.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>Held before %1: %n reasons.</source>
        <translation>
            <numerusform>Held before %1: %n reason.</numerusform>
            <numerusform>Held before %1: %n reasons.</numerusform>
        </translation>
    </message>
</context>
</TS>
