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
    <name>brimful::tablet::ClockPage</name>
    <message numerus="yes">
        <source>%n cool</source>
        <extracomment>of a sweep: how many places were found cool</extracomment>
        <translation>
            <numerusform>%n cool</numerusform>
            <numerusform>%n cool</numerusform>
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
    <message numerus="yes">
        <source>%1: %n cards signed within %2. Their work takes about %4 together: %3.</source>
        <extracomment>%1 vessels, %2 a time, %3 titles of steps, %4 a time</extracomment>
        <translation>
            <numerusform>%1: %n card signed within %2. Their work takes about %4 together: %3.</numerusform>
            <numerusform>%1: %n cards signed within %2. Their work takes about %4 together: %3.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1: all %n cards before the release &quot;%2&quot; were signed in the last %3. After the first their work takes about %4.</source>
        <extracomment>%1 a vessel&apos;s number, %2 a hold point, %3 and %4 times</extracomment>
        <translation>
            <numerusform>%1: %n card before the release &quot;%2&quot; was signed in the last %3. After the first their work takes about %4.</numerusform>
            <numerusform>%1: all %n cards before the release &quot;%2&quot; were signed in the last %3. After the first their work takes about %4.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>The last %n releases were all given by the same two people: %1.</source>
        <extracomment>%1 two names</extracomment>
        <translation>
            <numerusform>The last %n release was given by the same two people: %1.</numerusform>
            <numerusform>The last %n releases were all given by the same two people: %1.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>On the last %n vessels nothing was found: no card outside its limit, no &quot;cannot&quot;, no stop, no release taken back.</source>
        <translation>
            <numerusform>On the last %n vessel nothing was found: no card outside its limit, no &quot;cannot&quot;, no stop, no release taken back.</numerusform>
            <numerusform>On the last %n vessels nothing was found: no card outside its limit, no &quot;cannot&quot;, no stop, no release taken back.</numerusform>
        </translation>
    </message>
    <message numerus="yes">
        <source>%1 %2, %n times running: %3.</source>
        <extracomment>%1 what the card asks, %2 what was typed, %3 vessels</extracomment>
        <translation>
            <numerusform>%1 %2, %n time running: %3.</numerusform>
            <numerusform>%1 %2, %n times running: %3.</numerusform>
        </translation>
    </message>
</context>
</TS>
