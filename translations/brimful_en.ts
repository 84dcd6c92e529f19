<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="en" sourcelanguage="en">
<context>
    <name>PinField</name>
    <message numerus="yes">
        <source>%1, %n digit(s) typed</source>
        <translation>
            <numerusform>%1, %n digit typed</numerusform>
            <numerusform>%1, %n digits typed</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>Sheet</name>
    <message numerus="yes">
        <source>tightens %n limit(s)</source>
        <translation>
            <numerusform>tightens %n limit</numerusform>
            <numerusform>tightens %n limits</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>brimful::tablet::Plate</name>
    <message numerus="yes">
        <source>%n day(s)</source>
        <extracomment>how long a clock still runs</extracomment>
        <translation>
            <numerusform>%n day</numerusform>
            <numerusform>%n days</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>brimful::tablet::Tablet</name>
    <message numerus="yes">
        <source>%n vessel(s) stopped</source>
        <translation>
            <numerusform>%n vessel stopped</numerusform>
            <numerusform>%n vessels stopped</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>brimful::tablet::VesselPage</name>
    <message numerus="yes">
        <source>%n entries</source>
        <translation>
            <numerusform>%n entry</numerusform>
            <numerusform>%n entries</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n places</source>
        <translation>
            <numerusform>%n place</numerusform>
            <numerusform>%n places</numerusform>
        </translation>
    </message>
</context>
<context>
    <name>brimful::tablet::YardPage</name>
    <message numerus="yes">
        <source>%n vessel(s)</source>
        <translation>
            <numerusform>%n vessel</numerusform>
            <numerusform>%n vessels</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%n vessel(s), %1 not read yet</source>
        <translation>
            <numerusform>%n vessel, %1 not read yet</numerusform>
            <numerusform>%n vessels, %1 not read yet</numerusform>
        </translation>
    </message>
</context>
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
