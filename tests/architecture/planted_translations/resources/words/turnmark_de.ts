<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de" sourcelanguage="en">
<context>
    <name>ui::chart</name>
    <message>
        <source>Right</source>
        <translation>Richtig</translation>
    </message>
    <message>
        <source>Not finished</source>
        <translation type="unfinished">Nicht fertig</translation>
    </message>
    <message>
        <source>%1 of %2</source>
        <translation>%1 von allen</translation>
    </message>
    <message>
        <source>&amp;Keep</source>
        <translation>Behalten</translation>
    </message>
    <message>
        <source>Gone</source>
        <translation>Weg</translation>
    </message>
</context>
</TS>
