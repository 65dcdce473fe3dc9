<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de" sourcelanguage="en">
<context>
    <name>planted</name>
    <message>
        <source>Two shots, counted by a function.</source>
        <translation>&amp;Zwei Schläge</translation>
    </message>
    <message numerus="yes">
        <source>Three</source>
        <translation><numerusform>Ein Schlag</numerusform><numerusform>Drei Schläge</numerusform></translation>
    </message>
</context>
</TS>
