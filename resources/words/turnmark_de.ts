<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de" sourcelanguage="en">
<context>
    <name>QObject</name>
    <message>
        <source> or </source>
        <translation> oder </translation>
    </message>
</context>
<context>
    <name>turnmark</name>
    <message>
        <source>en or de</source>
        <translation>en oder de</translation>
    </message>
    <message>
        <source>Reads the spin of a struck ball from video.</source>
        <translation>Liest den Drall eines geschlagenen Balls aus Video ab.</translation>
    </message>
    <message>
        <source>project file to open</source>
        <translation>Projektdatei, die geöffnet wird</translation>
    </message>
    <message>
        <source>system, light or dark</source>
        <translation>system, light oder dark</translation>
    </message>
    <message>
        <source>plan, footage, reading, doubts, findings or publish</source>
        <translation>plan, footage, reading, doubts, findings oder publish</translation>
    </message>
    <message>
        <source>there is no language &quot;%1&quot;; --language takes en or de</source>
        <translation>es gibt keine Sprache „%1“; --language nimmt en oder de</translation>
    </message>
    <message>
        <source>there is no screen &quot;%1&quot;; --screen takes plan, footage, reading, doubts, findings or publish</source>
        <translation>es gibt keine Ansicht „%1“; --screen nimmt plan, footage, reading, doubts, findings oder publish</translation>
    </message>
</context>
<context>
    <name>ui::bridge</name>
    <message>
        <source>Cancelled: the kept shots have the numbers from before.</source>
        <translation>Abgebrochen: Die behaltenen Schläge haben die Zahlen von vorher.</translation>
    </message>
    <message>
        <source>%1 read again; the numbers from before stay in the history.</source>
        <translation>%1 neu abgelesen; die Zahlen von vorher bleiben im Verlauf.</translation>
    </message>
    <message>
        <source>%1 keeps its number from before: %2</source>
        <translation>%1 behält die Zahl von vorher: %2</translation>
    </message>
</context>
<context>
    <name>ui::bridge::FindingsKeeper</name>
    <message>
        <source>Computing findings</source>
        <translation>Ergebnisse werden berechnet</translation>
    </message>
</context>
<context>
    <name>ui::bridge::JobRunner</name>
    <message>
        <source>Cancelled before it began.</source>
        <translation>Abgebrochen, bevor es begann.</translation>
    </message>
</context>
<context>
    <name>ui::chart::ScatterChart</name>
    <message>
        <source>← → go from point to point, Enter opens it</source>
        <translation>← → geht von Punkt zu Punkt, Enter öffnet ihn</translation>
    </message>
</context>
<context>
    <name>ui::doubts::DoubtCard</name>
    <message>
        <source>Uses the capture rate that the flight fits, for every clip with the same wrong rate; their kept shots are read again</source>
        <translation>Verwendet die Aufnahmerate, zu der der Flug passt, für jeden Clip mit derselben falschen; ihre behaltenen Schläge werden neu abgelesen</translation>
    </message>
    <message>
        <source>Overrule the flight…</source>
        <translation>Dem Flug widersprechen…</translation>
    </message>
    <message>
        <source>Keeps the capture rate, with a reason that is published; the shots of the clip count again</source>
        <translation>Behält die Aufnahmerate, mit einer Begründung, die veröffentlicht wird; die Schläge des Clips zählen wieder</translation>
    </message>
    <message>
        <source>Replay</source>
        <translation>Wiederholung</translation>
    </message>
    <message>
        <source>Opens the shot in Reading, replaying its marks (Enter)</source>
        <translation>Öffnet den Schlag unter Ablesen und spielt seine Marken ab (Enter)</translation>
    </message>
    <message>
        <source>Keep as it is</source>
        <translation>So behalten</translation>
    </message>
    <message>
        <source>Keeps the number; the shot is settled until something new speaks against it (K)</source>
        <translation>Die Zahl bleibt; der Schlag ist erledigt, bis etwas Neues gegen ihn spricht (K)</translation>
    </message>
    <message>
        <source>Read again blind</source>
        <translation>Blind neu ablesen</translation>
    </message>
    <message>
        <source>Opens the shot without its marks and numbers (W)</source>
        <translation>Öffnet den Schlag ohne seine Marken und Zahlen (W)</translation>
    </message>
    <message>
        <source>Use this reading</source>
        <translation>Diese Ablesung verwenden</translation>
    </message>
    <message>
        <source>The reading that is chosen in the table counts then (L)</source>
        <translation>Dann zählt die Ablesung, die in der Tabelle gewählt ist (L)</translation>
    </message>
    <message>
        <source>Set aside…</source>
        <translation>Zurückstellen…</translation>
    </message>
    <message>
        <source>Film again…</source>
        <translation>Neu filmen…</translation>
    </message>
    <message>
        <source>Mark the cell as doubtful</source>
        <translation>Zelle als zweifelhaft kennzeichnen</translation>
    </message>
    <message>
        <source>Marks every kept shot of the cell as doubtful (D)</source>
        <translation>Kennzeichnet jeden behaltenen Schlag der Zelle als zweifelhaft (D)</translation>
    </message>
    <message>
        <source>shot</source>
        <translation>Schlag</translation>
    </message>
    <message>
        <source>%1, %2</source>
        <translation>%1, %2</translation>
    </message>
    <message>
        <source>Nothing is chosen.</source>
        <translation>Nichts ist gewählt.</translation>
    </message>
    <message>
        <source>%1 (settled)</source>
        <translation>%1 (erledigt)</translation>
    </message>
    <message>
        <source>Use %1 for %2</source>
        <translation>%1 für %2 verwenden</translation>
    </message>
    <message>
        <source>%1 frames per second for %2.</source>
        <translation>%1 Bilder je Sekunde für %2.</translation>
    </message>
    <message>
        <source>Kept as it is: %1</source>
        <translation>So behalten: %1</translation>
    </message>
    <message>
        <source>This reading counts now.</source>
        <translation>Diese Ablesung zählt jetzt.</translation>
    </message>
    <message>
        <source>Why is it set aside? Enter sets it aside, Esc leaves it</source>
        <translation>Warum wird er zurückgestellt? Enter stellt zurück, Esc lässt es</translation>
    </message>
    <message>
        <source>Why is it to be filmed again? Enter puts it on the list, Esc leaves it</source>
        <translation>Warum soll neu gefilmt werden? Enter setzt auf die Liste, Esc lässt es</translation>
    </message>
    <message>
        <source>Why is the capture rate right? Enter keeps it, Esc leaves it</source>
        <translation>Warum ist die Aufnahmerate richtig? Enter behält sie, Esc lässt es</translation>
    </message>
    <message>
        <source>Set aside: %1</source>
        <translation>Zurückgestellt: %1</translation>
    </message>
    <message>
        <source>On the list to film again: %1</source>
        <translation>Auf der Filmliste: %1</translation>
    </message>
    <message>
        <source>The capture rate is kept. Its shots count again.</source>
        <translation>Die Aufnahmerate bleibt. Ihre Schläge zählen wieder.</translation>
    </message>
    <message>
        <source>Every kept shot of the cell is marked as doubtful.</source>
        <translation>Jeder behaltene Schlag der Zelle ist als zweifelhaft gekennzeichnet.</translation>
    </message>
    <message>
        <source>Leaves the shot out of the summary, with a reason (O)</source>
        <translation>Lässt den Schlag aus der Zusammenfassung, mit einer Begründung (O)</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>Sets the shot, or the kept shots of the cell, aside and puts the cell on the list to film (F)</source>
        <translation>Stellt den Schlag oder die behaltenen Schläge der Zelle zurück und setzt die Zelle auf die Filmliste (F)</translation>
    </message>
</context>
<context>
    <name>ui::doubts::DoubtFilters</name>
    <message>
        <source>Only this reason</source>
        <translation>Nur dieser Grund</translation>
    </message>
    <message>
        <source>Only shots of this clip</source>
        <translation>Nur Schläge dieses Clips</translation>
    </message>
    <message>
        <source>Only this implement and hitter</source>
        <translation>Nur dieses Gerät mit diesem Spieler</translation>
    </message>
    <message>
        <source>Settled ones too</source>
        <translation>Auch erledigte</translation>
    </message>
    <message>
        <source>implement, clip, shot</source>
        <translation>Gerät, Clip, Schlag</translation>
    </message>
    <message>
        <source>Only doubts with these words</source>
        <translation>Nur Zweifel mit diesen Worten</translation>
    </message>
    <message>
        <source>Shots that were checked and kept as they are</source>
        <translation>Schläge, die geprüft und so behalten sind</translation>
    </message>
    <message>
        <source>%1, all hitters</source>
        <translation>%1, alle Spieler</translation>
    </message>
    <message>
        <source>All reasons</source>
        <translation>Alle Gründe</translation>
    </message>
    <message>
        <source>All clips</source>
        <translation>Alle Clips</translation>
    </message>
    <message>
        <source>All cells</source>
        <translation>Alle Zellen</translation>
    </message>
    <message>
        <source>Words to look for in doubts</source>
        <translation>Worte, nach denen in Zweifeln gesucht wird</translation>
    </message>
</context>
<context>
    <name>ui::doubts::DoubtListModel</name>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>settled</source>
        <translation>erledigt</translation>
    </message>
    <message>
        <source>grave</source>
        <translation>ernst</translation>
    </message>
    <message>
        <source>question</source>
        <translation>Frage</translation>
    </message>
    <message>
        <source>note</source>
        <translation>Hinweis</translation>
    </message>
    <message>
        <source>whole cell</source>
        <translation>ganze Zelle</translation>
    </message>
    <message>
        <source>shot %1</source>
        <translation>Schlag %1</translation>
    </message>
    <message>
        <source>%1 +%2</source>
        <translation>%1 +%2</translation>
    </message>
</context>
<context>
    <name>ui::doubts::DoubtPast</name>
    <message>
        <source>Counts</source>
        <translation>Zählt</translation>
    </message>
    <message>
        <source>Reader</source>
        <translation>Ableser</translation>
    </message>
    <message>
        <source>By</source>
        <translation>Methode</translation>
    </message>
    <message>
        <source>Spin rate, rpm</source>
        <translation>Drehzahl, U/min</translation>
    </message>
    <message>
        <source>95 %, rpm</source>
        <translation>95 %, U/min</translation>
    </message>
    <message>
        <source>What was decided</source>
        <translation>Was entschieden wurde</translation>
    </message>
    <message>
        <source>All readings of the shot</source>
        <translation>Alle Ablesungen des Schlags</translation>
    </message>
    <message>
        <source>● counts</source>
        <translation>● zählt</translation>
    </message>
    <message>
        <source>from the marks</source>
        <translation>aus den Marken</translation>
    </message>
    <message>
        <source>from the pictures</source>
        <translation>aus den Bildern</translation>
    </message>
    <message>
        <source>Made %1</source>
        <translation>Gemacht am %1</translation>
    </message>
</context>
<context>
    <name>ui::doubts::DoubtSource</name>
    <message>
        <source>Looking for doubtful shots</source>
        <translation>Zweifelhafte Schläge werden gesucht</translation>
    </message>
</context>
<context>
    <name>ui::doubts::DoubtsScreen</name>
    <message>
        <source>What to do about doubts</source>
        <translation>Was mit Zweifeln zu tun ist</translation>
    </message>
    <message>
        <source>Replay</source>
        <translation>Wiederholung</translation>
    </message>
    <message>
        <source>Keep as it is</source>
        <translation>So behalten</translation>
    </message>
    <message>
        <source>Read again blind</source>
        <translation>Blind neu ablesen</translation>
    </message>
    <message>
        <source>Use this reading</source>
        <translation>Diese Ablesung verwenden</translation>
    </message>
    <message>
        <source>Set aside…</source>
        <translation>Zurückstellen…</translation>
    </message>
    <message>
        <source>Film again…</source>
        <translation>Neu filmen…</translation>
    </message>
    <message>
        <source>Mark the cell as doubtful</source>
        <translation>Zelle als zweifelhaft kennzeichnen</translation>
    </message>
    <message>
        <source>History</source>
        <translation>Verlauf</translation>
    </message>
    <message>
        <source>Doubtful shots and cells, worst first</source>
        <translation>Zweifelhafte Schläge und Zellen, die schwersten zuerst</translation>
    </message>
    <message>
        <source>↑ ↓ choose; Enter replays the shot in Reading</source>
        <translation>↑ ↓ wählt; Enter spielt den Schlag unter Ablesen ab</translation>
    </message>
    <message>
        <source>Doubtful does not mean wrong: replay it, read it again, then decide. Every decision can be undone.</source>
        <translation>Zweifelhaft heißt nicht falsch: wiederholen, neu ablesen, dann entscheiden. Jede Entscheidung lässt sich rückgängig machen.</translation>
    </message>
    <message>
        <source>Looking for doubtful shots…</source>
        <translation>Zweifelhafte Schläge werden gesucht…</translation>
    </message>
    <message>
        <source>Nothing doubtful is left to check here.</source>
        <translation>Hier ist nichts Zweifelhaftes mehr zu prüfen.</translation>
    </message>
    <message>
        <source>%1 to check, among %2.</source>
        <translation>Zu prüfen: %1; insgesamt %2.</translation>
    </message>
    <message>
        <source>The marks of %1 are not yet compared with the pictures: Read ahead in Reading does that.</source>
        <translation>Noch nicht mit den Bildern verglichen: die Marken von %1. Vorauslesen unter Ablesen erledigt das.</translation>
    </message>
    <message>
        <source>No shot is kept yet</source>
        <translation>Noch kein Schlag behalten</translation>
    </message>
    <message>
        <source>Keep the first shots in Reading; whatever is doubtful about them appears here.</source>
        <translation>Behalten Sie die ersten Schläge unter Ablesen; was an ihnen zweifelhaft ist, erscheint hier.</translation>
    </message>
    <message>
        <source>1 grave doubt: decide it first</source>
        <translation>1 ernster Zweifel: entscheiden Sie ihn zuerst</translation>
    </message>
    <message>
        <source>%1 grave doubts: decide them first</source>
        <translation>%1 ernste Zweifel: entscheiden Sie sie zuerst</translation>
    </message>
    <message>
        <source>%1 to check</source>
        <translation>%1 zu prüfen</translation>
    </message>
    <message>
        <source>Nothing left to check</source>
        <translation>Nichts mehr zu prüfen</translation>
    </message>
    <message>
        <source>To check</source>
        <translation>Zu prüfen</translation>
    </message>
    <message>
        <source>The filters above leave the rest out.</source>
        <translation>Die Filter oben lassen den Rest weg.</translation>
    </message>
    <message>
        <source>To check %1</source>
        <translation>Zu prüfen %1</translation>
    </message>
</context>
<context>
    <name>ui::doubts::FilmAgainPanel</name>
    <message>
        <source>Implement</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Condition</source>
        <translation>Zustand</translation>
    </message>
    <message>
        <source>Hitter</source>
        <translation>Spieler</translation>
    </message>
    <message>
        <source>Shots</source>
        <translation>Schläge</translation>
    </message>
    <message>
        <source>Save list and cards as PDF…</source>
        <translation>Liste und Karten als PDF speichern…</translation>
    </message>
    <message>
        <source>The list of what to film again, and a slate card for each cell</source>
        <translation>Die Liste dessen, was neu zu filmen ist, und je Zelle eine Ansagekarte</translation>
    </message>
    <message>
        <source>What is to be filmed again</source>
        <translation>Was neu zu filmen ist</translation>
    </message>
    <message>
        <source>Shots that were set aside to be filmed again, by cell.</source>
        <translation>Schläge, die zum Neufilmen zurückgestellt sind, nach Zellen.</translation>
    </message>
    <message>
        <source>Save the list</source>
        <translation>Liste speichern</translation>
    </message>
    <message>
        <source>PDF (*.pdf)</source>
        <translation>PDF (*.pdf)</translation>
    </message>
    <message>
        <source>Saved %1.</source>
        <translation>%1 gespeichert.</translation>
    </message>
    <message>
        <source>To film again</source>
        <translation>Neu zu filmen</translation>
    </message>
    <message>
        <source>To film again %1</source>
        <translation>Neu zu filmen %1</translation>
    </message>
    <message>
        <source>Nothing is to be filmed again. Choose a doubtful shot or cell and press F to put it on this list.</source>
        <translation>Nichts ist neu zu filmen. Wählen Sie einen zweifelhaften Schlag oder eine Zelle und drücken Sie F, um sie auf diese Liste zu setzen.</translation>
    </message>
</context>
<context>
    <name>ui::doubts::HistoryPanel</name>
    <message>
        <source>When</source>
        <translation>Wann</translation>
    </message>
    <message>
        <source>Reader</source>
        <translation>Ableser</translation>
    </message>
    <message>
        <source>What</source>
        <translation>Was</translation>
    </message>
    <message>
        <source>Words to look for, for example a shot or a reader</source>
        <translation>Gesuchte Wörter, zum Beispiel ein Schlag oder ein Ableser</translation>
    </message>
    <message>
        <source>History of the project</source>
        <translation>Verlauf des Projekts</translation>
    </message>
    <message>
        <source>Enter opens the shot of the line</source>
        <translation>Enter öffnet den Schlag der Zeile</translation>
    </message>
</context>
<context>
    <name>ui::doubts::RateScale</name>
    <message>
        <source>other shots of the cell</source>
        <translation>andere Schläge der Zelle</translation>
    </message>
    <message>
        <source>shots of the cell</source>
        <translation>Schläge der Zelle</translation>
    </message>
    <message>
        <source>Readings and the other shots of the cell on one scale</source>
        <translation>Ablesungen und die anderen Schläge der Zelle auf einer Skala</translation>
    </message>
    <message>
        <source>Equal lengths are equal ratios: the rates lie too far apart for an even scale. Filled: in use. Rings: its rivals. Ticks: other shots.</source>
        <translation>Gleiche Längen sind gleiche Verhältnisse: die Drehzahlen liegen für eine gleichmäßige Skala zu weit auseinander. Gefüllt: zählt. Ringe: was dagegen steht. Striche: andere Schläge.</translation>
    </message>
    <message>
        <source>Filled: in use. Rings: its rivals. Ticks: other shots.</source>
        <translation>Gefüllt: zählt. Ringe: was dagegen steht. Striche: andere Schläge.</translation>
    </message>
    <message>
        <source>rpm</source>
        <translation>U/min</translation>
    </message>
    <message>
        <source>%1, from %2 to %3 rpm</source>
        <translation>%1, von %2 bis %3 U/min</translation>
    </message>
    <message>
        <source>%1 or %2 rpm</source>
        <translation>%1 oder %2 U/min</translation>
    </message>
    <message>
        <source>%1 rpm</source>
        <translation>%1 U/min</translation>
    </message>
    <message>
        <source>%1 is %2 rpm below what to expect</source>
        <translation>%1 liegt %2 U/min unter Erwartung</translation>
    </message>
    <message>
        <source>%1 by the pictures</source>
        <translation>%1 nach den Bildern</translation>
    </message>
    <message>
        <source>%1 fits nearly as well</source>
        <translation>%1 passt fast so gut</translation>
    </message>
    <message>
        <source>%1 mean of the cell</source>
        <translation>%1 Mittel der Zelle</translation>
    </message>
    <message>
        <source>%1 expected</source>
        <translation>%1 erwartet</translation>
    </message>
    <message>
        <source>%1 in use</source>
        <translation>%1 zählt</translation>
    </message>
    <message>
        <source>%1 is %2 rpm above what to expect</source>
        <translation>%1 liegt %2 U/min über Erwartung</translation>
    </message>
    <message>
        <source>± %1 rpm, the others ± %2</source>
        <translation>± %1 U/min, die anderen ± %2</translation>
    </message>
    <message>
        <source>standard deviation %1 rpm</source>
        <translation>Standardabweichung %1 U/min</translation>
    </message>
    <message>
        <source>%1 m/s, the others %2</source>
        <translation>%1 m/s, die anderen %2</translation>
    </message>
    <message>
        <source>%1, the others %2 to %3</source>
        <translation>%1, die anderen %2 bis %3</translation>
    </message>
    <message>
        <source>%1, the others %2</source>
        <translation>%1, die anderen %2</translation>
    </message>
</context>
<context>
    <name>ui::doubts::SecondReadingsPanel</name>
    <message>
        <source>Draw the sample</source>
        <translation>Stichprobe ziehen</translation>
    </message>
    <message>
        <source>Read the next one blind</source>
        <translation>Nächsten blind ablesen</translation>
    </message>
    <message>
        <source>How many kept shots are read a second time</source>
        <translation>So viele behaltene Schläge werden ein zweites Mal abgelesen</translation>
    </message>
    <message>
        <source>The same number draws the same shots in the same order</source>
        <translation>Dieselbe Zahl zieht dieselben Schläge in derselben Reihenfolge</translation>
    </message>
    <message>
        <source>Draws the shots; those that still wait from before are forgotten</source>
        <translation>Zieht die Schläge; wartende von vorher werden vergessen</translation>
    </message>
    <message>
        <source>Without names, marks and numbers; the reader named above reads (W)</source>
        <translation>Ohne Namen, Marken und Zahlen; es liest der oben genannte Ableser (W)</translation>
    </message>
    <message>
        <source>Shots</source>
        <translation>Schläge</translation>
    </message>
    <message>
        <source>Seed</source>
        <translation>Startwert</translation>
    </message>
    <message>
        <source>No shot is kept yet: there is nothing to read a second time.</source>
        <translation>Noch ist kein Schlag behalten: Es gibt nichts ein zweites Mal abzulesen.</translation>
    </message>
    <message>
        <source>%1 of %2 second readings are done.</source>
        <translation>%1 von %2 Zweitablesungen sind gemacht.</translation>
    </message>
    <message>
        <source>A second reading without names and earlier numbers tells how well readings repeat. Draw some of the %1 kept shots.</source>
        <translation>Eine Zweitablesung ohne Namen und frühere Zahlen zeigt, wie gut sich Ablesungen wiederholen. Ziehen Sie einige der %1 behaltenen Schläge.</translation>
    </message>
    <message>
        <source>Findings shows under Agreement how well readings and readers repeat. A second reading counts only after you press &quot;Use this reading&quot;.</source>
        <translation>Die Ergebnisse zeigen unter Übereinstimmung, wie gut sich Ablesungen und Ableser wiederholen. Eine Zweitablesung zählt erst, wenn Sie „Diese Ablesung verwenden“ drücken.</translation>
    </message>
    <message>
        <source>Drawn: %1.</source>
        <translation>Gezogen: %1.</translation>
    </message>
    <message>
        <source>Second readings</source>
        <translation>Zweitablesungen</translation>
    </message>
    <message>
        <source>Second readings %1/%2</source>
        <translation>Zweitablesungen %1/%2</translation>
    </message>
</context>
<context>
    <name>ui::doubts::TurnPanel</name>
    <message>
        <source>%1 rpm, %2 frames a turn: the mark comes back in frame %3</source>
        <translation>%1 U/min, %2 Bilder je Umdrehung: die Marke ist in Bild %3 wieder da</translation>
    </message>
    <message>
        <source>Not all pictures of this turn can be shown. %1</source>
        <translation>Nicht alle Bilder dieser Umdrehung lassen sich zeigen. %1</translation>
    </message>
</context>
<context>
    <name>ui::doubts::TurnPictures</name>
    <message>
        <source>The turn lies outside of the frames of the shot.</source>
        <translation>Die Umdrehung liegt außerhalb der Bilder des Schlags.</translation>
    </message>
    <message>
        <source>Cutting out the pictures of a turn</source>
        <translation>Bilder einer Umdrehung ausschneiden</translation>
    </message>
    <message>
        <source>The film has no more frames of this shot.</source>
        <translation>Der Film hat keine weiteren Bilder dieses Schlags.</translation>
    </message>
</context>
<context>
    <name>ui::doubts::TurnStrip</name>
    <message>
        <source>Pictures of one turn</source>
        <translation>Bilder einer Umdrehung</translation>
    </message>
    <message>
        <source>%1 start</source>
        <translation>%1 Start</translation>
    </message>
    <message>
        <source>%1 turn 1</source>
        <translation>%1 Umdrehung 1</translation>
    </message>
    <message>
        <source>Frame %1</source>
        <translation>Bild %1</translation>
    </message>
    <message>
        <source>being looked for</source>
        <translation>wird gesucht</translation>
    </message>
    <message>
        <source>no picture</source>
        <translation>kein Bild</translation>
    </message>
</context>
<context>
    <name>ui::findings</name>
    <message>
        <source>differs</source>
        <translation>verschieden</translation>
    </message>
    <message>
        <source>not shown</source>
        <translation>nicht nachgewiesen</translation>
    </message>
    <message>
        <source>at least the step</source>
        <translation>mindestens merklich</translation>
    </message>
    <message>
        <source>less than the step</source>
        <translation>weniger als merklich</translation>
    </message>
    <message>
        <source>equivalent</source>
        <translation>gleichwertig</translation>
    </message>
    <message>
        <source>not settled</source>
        <translation>nicht geklärt</translation>
    </message>
    <message>
        <source>cannot be said</source>
        <translation>nicht zu sagen</translation>
    </message>
    <message>
        <source>%1 less %2</source>
        <translation>%1 minus %2</translation>
    </message>
    <message>
        <source>filming day %1, hitter %2</source>
        <translation>Drehtag %1, Spieler %2</translation>
    </message>
    <message>
        <source>shot of the filming day</source>
        <translation>Schlag des Drehtags</translation>
    </message>
    <message>
        <source>above its cell, rpm</source>
        <translation>über seiner Zelle, U/min</translation>
    </message>
    <message>
        <source>shot %1, %2: %3 rpm above its cell</source>
        <translation>Schlag %1, %2: %3 U/min über seiner Zelle</translation>
    </message>
    <message>
        <source>No kept shots yet, so nothing can have drifted.</source>
        <translation>Noch keine behaltenen Schläge, also ist keine Drift zu sehen.</translation>
    </message>
    <message>
        <source>mean spin, rpm</source>
        <translation>mittlere Drehzahl, U/min</translation>
    </message>
    <message>
        <source>%1: %2, %3 rpm</source>
        <translation>%1: %2, %3 U/min</translation>
    </message>
    <message>
        <source>No attribute is a number for three compared implements. Give the implements attributes such as thickness or mass.
</source>
        <translation>Kein Merkmal ist bei drei verglichenen Geräten eine Zahl. Geben Sie den Geräten Merkmale wie Dicke oder Masse.
</translation>
    </message>
    <message>
        <source>marks against the pictures</source>
        <translation>Marken gegen Bilder</translation>
    </message>
    <message>
        <source>mean of both, rpm</source>
        <translation>Mittel aus beiden, U/min</translation>
    </message>
    <message>
        <source>marks less pictures, rpm</source>
        <translation>Marken minus Bilder, U/min</translation>
    </message>
    <message>
        <source>marks %1 rpm, pictures %2 rpm</source>
        <translation>Marken %1 U/min, Bilder %2 U/min</translation>
    </message>
    <message>
        <source>Odd shots:</source>
        <translation>Auffällige Schläge:</translation>
    </message>
    <message>
        <source>noticeable step %1 rpm: wider than this chart</source>
        <translation>merklicher Unterschied %1 U/min: breiter als diese Grafik</translation>
    </message>
    <message>
        <source>noticeable step %1 rpm</source>
        <translation>merklicher Unterschied %1 U/min</translation>
    </message>
    <message>
        <source>The kept shots are not assigned yet</source>
        <translation>Die behaltenen Schläge sind niemandem zugeordnet</translation>
    </message>
    <message>
        <source>Assign them to implement and hitter in Footage; they appear here at once.</source>
        <translation>Ordnen Sie sie unter Aufnahmen Gerät und Spieler zu; sie erscheinen hier sofort.</translation>
    </message>
    <message>
        <source>Nothing to compare yet</source>
        <translation>Noch nichts zu vergleichen</translation>
    </message>
    <message>
        <source>Keep the first shots in Reading, and assign them to implement and hitter in Footage. Every kept shot appears here at once.</source>
        <translation>Behalten Sie die ersten Schläge unter Ablesen und ordnen Sie sie unter Aufnahmen Gerät und Spieler zu. Jeder behaltene Schlag erscheint hier sofort.</translation>
    </message>
</context>
<context>
    <name>ui::findings::FindingsBar</name>
    <message>
        <source>Hitters &amp;apart</source>
        <translation>Spieler &amp;einzeln</translation>
    </message>
    <message>
        <source>Hitters whose results are compared</source>
        <translation>Spieler, deren Ergebnisse verglichen werden</translation>
    </message>
    <message>
        <source>A marker for each hitter in the chart</source>
        <translation>Ein Zeichen je Spieler in der Grafik</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keiner</translation>
    </message>
    <message>
        <source>The smallest difference that a player notices, in rpm; empty for none; Enter keeps it</source>
        <translation>Der kleinste Unterschied, den ein Spieler merkt, in U/min; leer für keinen; Enter übernimmt ihn</translation>
    </message>
    <message>
        <source>none, for example: low 1200 medium 1500 high</source>
        <translation>keine; zum Beispiel: niedrig 1200 mittel 1500 hoch</translation>
    </message>
    <message>
        <source>Names and edges in rpm in turn, lowest first; empty for none; Enter keeps them</source>
        <translation>Abwechselnd Namen und Grenzen in U/min, niedrigste zuerst; leer für keine; Enter übernimmt sie</translation>
    </message>
    <message>
        <source>&amp;Shots of</source>
        <translation>&amp;Schläge von</translation>
    </message>
    <message>
        <source>&amp;Noticeable step, rpm</source>
        <translation>&amp;Merklicher Unterschied, U/min</translation>
    </message>
    <message>
        <source>&amp;Bands, rpm</source>
        <translation>&amp;Bereiche, U/min</translation>
    </message>
    <message>
        <source>all hitters</source>
        <translation>alle Spieler</translation>
    </message>
    <message>
        <source>hitter %1</source>
        <translation>Spieler %1</translation>
    </message>
</context>
<context>
    <name>ui::findings::FindingsScreen</name>
    <message>
        <source>Views of the findings</source>
        <translation>Ansichten der Ergebnisse</translation>
    </message>
    <message>
        <source>Implement</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Which</source>
        <translation>Welche</translation>
    </message>
    <message>
        <source>Difference, rpm</source>
        <translation>Unterschied, U/min</translation>
    </message>
    <message>
        <source>95 %, rpm</source>
        <translation>95 %, U/min</translation>
    </message>
    <message>
        <source>Verdict</source>
        <translation>Urteil</translation>
    </message>
    <message>
        <source>Hitter against hitter, new against worn</source>
        <translation>Spieler gegen Spieler, neu gegen gebraucht</translation>
    </message>
    <message>
        <source>Spin over the shots of a filming day</source>
        <translation>Drall über die Schläge eines Drehtags</translation>
    </message>
    <message>
        <source>Spin against an attribute of the implements</source>
        <translation>Drall gegen ein Merkmal der Geräte</translation>
    </message>
    <message>
        <source>Marks against the pictures</source>
        <translation>Marken gegen Bilder</translation>
    </message>
    <message>
        <source>The findings are being computed.</source>
        <translation>Die Ergebnisse werden berechnet.</translation>
    </message>
    <message>
        <source>Shots</source>
        <translation>Schläge</translation>
    </message>
    <message>
        <source>Shows what is said of the chosen row, and its shots (Enter; Esc closes)</source>
        <translation>Zeigt, was zur gewählten Zeile gesagt ist, und ihre Schläge (Enter; Esc schließt)</translation>
    </message>
    <message>
        <source>Go to Publish</source>
        <translation>Zum Veröffentlichen</translation>
    </message>
    <message>
        <source>What is open, then the page for others (Ctrl+6)</source>
        <translation>Was offen ist, dann die Seite für andere (Strg+6)</translation>
    </message>
    <message>
        <source>How it was read and computed</source>
        <translation>Wie abgelesen und gerechnet wurde</translation>
    </message>
    <message>
        <source>Ranking</source>
        <translation>Rangliste</translation>
    </message>
    <message>
        <source>Pairs</source>
        <translation>Paare</translation>
    </message>
    <message>
        <source>Hitters</source>
        <translation>Spieler</translation>
    </message>
    <message>
        <source>Drift</source>
        <translation>Drift</translation>
    </message>
    <message>
        <source>Attributes</source>
        <translation>Merkmale</translation>
    </message>
    <message>
        <source>Agreement</source>
        <translation>Übereinstimmung</translation>
    </message>
    <message>
        <source>Method</source>
        <translation>Methode</translation>
    </message>
    <message>
        <source>%1 (Ctrl+Tab goes on)</source>
        <translation>%1 (Strg+Tab geht weiter)</translation>
    </message>
    <message>
        <source>Findings describe the specimens and hitters that were filmed. Whether an implement is legal to play with is for the governing body to say.</source>
        <translation>Die Ergebnisse beschreiben die gefilmten Exemplare und Spieler. Ob mit einem Gerät gespielt werden darf, sagt der zuständige Verband.</translation>
    </message>
</context>
<context>
    <name>ui::findings::PairsView</name>
    <message>
        <source>Pairs of implements, row less column, rpm</source>
        <translation>Gerätepaare, Zeile minus Spalte, U/min</translation>
    </message>
    <message>
        <source>Arrow keys choose a pair; Enter shows its shots</source>
        <translation>Pfeiltasten wählen ein Paar; Enter zeigt seine Schläge</translation>
    </message>
</context>
<context>
    <name>ui::findings::PlotView</name>
    <message>
        <source>Which of them is drawn (↑ ↓)</source>
        <translation>Was gezeichnet wird (↑ ↓)</translation>
    </message>
</context>
<context>
    <name>ui::findings::RankedHead</name>
    <message>
        <source>%1 of %2</source>
        <translation>%1 von %2</translation>
    </message>
</context>
<context>
    <name>ui::findings::RankedMenu</name>
    <message>
        <source>Show its shots</source>
        <translation>Seine Schläge zeigen</translation>
    </message>
    <message>
        <source>Read its shots</source>
        <translation>Seine Schläge ablesen</translation>
    </message>
    <message>
        <source>Show its doubts</source>
        <translation>Zweifel daran zeigen</translation>
    </message>
</context>
<context>
    <name>ui::findings::RankedView</name>
    <message>
        <source>Ranking of the implements</source>
        <translation>Rangliste der Geräte</translation>
    </message>
    <message>
        <source>Copy rows for a spreadsheet</source>
        <translation>Zeilen für eine Tabelle kopieren</translation>
    </message>
    <message>
        <source>No implement matches. Empty the search or choose another group.</source>
        <translation>Kein Gerät passt. Leeren Sie die Suche oder wählen Sie eine andere Gruppe.</translation>
    </message>
</context>
<context>
    <name>ui::findings::RankingInSmall</name>
    <message>
        <source>The whole ranking in small</source>
        <translation>Die ganze Rangliste im Kleinen</translation>
    </message>
</context>
<context>
    <name>ui::findings::RankingLegend</name>
    <message>
        <source>%1; ≈ no difference shown from the chosen row</source>
        <translation>%1; ≈ kein Unterschied zur gewählten Zeile nachgewiesen</translation>
    </message>
    <message>
        <source>hitter %1</source>
        <translation>Spieler %1</translation>
    </message>
</context>
<context>
    <name>ui::findings::RankingPanel</name>
    <message>
        <source>&amp;Compact</source>
        <translation>&amp;Kompakt</translation>
    </message>
    <message>
        <source>↑ ↓ choose an implement; Enter shows its shots</source>
        <translation>↑ ↓ wählt ein Gerät; Enter zeigt seine Schläge</translation>
    </message>
    <message>
        <source>Find an implement</source>
        <translation>Gerät suchen</translation>
    </message>
    <message>
        <source>Shows the rows whose name or condition has these words (%1)</source>
        <translation>Zeigt die Zeilen, deren Name oder Zustand diese Wörter hat (%1)</translation>
    </message>
    <message>
        <source>Condition</source>
        <translation>Zustand</translation>
    </message>
    <message>
        <source>Shows the implements of one condition</source>
        <translation>Zeigt die Geräte eines Zustands</translation>
    </message>
    <message>
        <source>Band</source>
        <translation>Bereich</translation>
    </message>
    <message>
        <source>Shows the implements of one band</source>
        <translation>Zeigt die Geräte eines Bereichs</translation>
    </message>
    <message>
        <source>Lower rows, hitters as points without intervals</source>
        <translation>Niedrigere Zeilen, Spieler als Punkte ohne Intervalle</translation>
    </message>
    <message>
        <source>any condition</source>
        <translation>jeder Zustand</translation>
    </message>
    <message>
        <source>any band</source>
        <translation>jeder Bereich</translation>
    </message>
    <message>
        <source>hitter %1, 95 %</source>
        <translation>Spieler %1, 95 %</translation>
    </message>
    <message>
        <source>all hitters, 95 %</source>
        <translation>alle Spieler, 95 %</translation>
    </message>
    <message>
        <source>none</source>
        <translation>ohne</translation>
    </message>
</context>
<context>
    <name>ui::findings::SidePanel</name>
    <message>
        <source>Flight</source>
        <translation>Flug</translation>
    </message>
    <message>
        <source>Shows speed, launch angle and the parts of the spin of these shots, and their means</source>
        <translation>Zeigt Geschwindigkeit, Abflugwinkel und die Anteile des Dralls dieser Schläge und ihre Mittel</translation>
    </message>
    <message>
        <source>Shots behind the chosen number</source>
        <translation>Schläge hinter der gewählten Zahl</translation>
    </message>
    <message>
        <source>↑ ↓ choose a shot; Enter shows it in Reading</source>
        <translation>↑ ↓ wählt einen Schlag; Enter zeigt ihn unter Ablesen</translation>
    </message>
    <message>
        <source>Open shot</source>
        <translation>Schlag öffnen</translation>
    </message>
    <message>
        <source>Shows the chosen shot in Reading (Enter)</source>
        <translation>Zeigt den gewählten Schlag unter Ablesen (Enter)</translation>
    </message>
    <message>
        <source>No shot here has a flight: it needs a reading from the pictures that was kept with the ball&apos;s diameter known.</source>
        <translation>Kein Schlag hier hat einen Flug: Dazu braucht es eine behaltene Ablesung aus den Bildern bei bekanntem Balldurchmesser.</translation>
    </message>
    <message>
        <source>Read this shot</source>
        <translation>Diesen Schlag ablesen</translation>
    </message>
    <message>
        <source>Show its doubts</source>
        <translation>Zweifel daran zeigen</translation>
    </message>
</context>
<context>
    <name>ui::findings::TableView</name>
    <message>
        <source>↑ ↓ choose a row; Enter shows its shots</source>
        <translation>↑ ↓ wählt eine Zeile; Enter zeigt ihre Schläge</translation>
    </message>
</context>
<context>
    <name>ui::footage</name>
    <message>
        <source>Remove %1? It has no shots.</source>
        <translation>%1 entfernen? Ohne Schläge.</translation>
    </message>
    <message>
        <source>Remove %1? %2 with their marks and readings go too; %3 of them in the findings.</source>
        <translation>%1 entfernen? Auch %2 mit ihren Marken und Ablesungen gehen mit; davon in den Ergebnissen: %3.</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keiner</translation>
    </message>
    <message>
        <source>Video (*.mp4 *.mov *.m4v *.mkv *.avi *.webm *.mts *.3gp);;All files (*)</source>
        <translation>Video (*.mp4 *.mov *.m4v *.mkv *.avi *.webm *.mts *.3gp);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Looking through the folders</source>
        <translation>Ordner werden durchsucht</translation>
    </message>
    <message>
        <source>%1: %2 of %3</source>
        <translation>%1: %2 von %3</translation>
    </message>
    <message>
        <source>%1, about %2 left</source>
        <translation>%1, noch etwa %2</translation>
    </message>
    <message>
        <source>%1, %2 more waiting</source>
        <translation>%1, %2 weitere warten</translation>
    </message>
    <message>
        <source>Cancelled. Add the same files again to go on from there.</source>
        <translation>Abgebrochen: Fügen Sie dieselben Dateien wieder hinzu, dann geht es von dort weiter.</translation>
    </message>
    <message>
        <source>What waited behind it was not begun.</source>
        <translation>Was dahinter wartete, wurde nicht begonnen.</translation>
    </message>
    <message>
        <source>Not done (%1):</source>
        <translation>Nicht erledigt (%1):</translation>
    </message>
    <message>
        <source>three quarters dark</source>
        <translation>drei Viertel dunkel</translation>
    </message>
    <message>
        <source>half dark</source>
        <translation>halb dunkel</translation>
    </message>
    <message>
        <source>band (looks the same after half a turn)</source>
        <translation>Band (nach halber Umdrehung gleich)</translation>
    </message>
    <message>
        <source>band with one dot</source>
        <translation>Band mit einem Punkt</translation>
    </message>
    <message>
        <source>other</source>
        <translation>andere</translation>
    </message>
    <message>
        <source>Ball marking</source>
        <translation>Markierung des Balls</translation>
    </message>
    <message>
        <source>no ball in flight was found; add shots by hand</source>
        <translation>kein Ball im Flug gefunden; fügen Sie Schläge von Hand hinzu</translation>
    </message>
    <message>
        <source>no ball in flight was found; the clip is taken for one shot</source>
        <translation>kein Ball im Flug gefunden; der Clip gilt als ein Schlag</translation>
    </message>
    <message>
        <source>no new shot was found</source>
        <translation>kein neuer Schlag gefunden</translation>
    </message>
    <message>
        <source>%1 found</source>
        <translation>%1 gefunden</translation>
    </message>
    <message>
        <source>not known, or both</source>
        <translation>nicht bekannt oder beides</translation>
    </message>
    <message>
        <source>topspin</source>
        <translation>Topspin</translation>
    </message>
    <message>
        <source>backspin</source>
        <translation>Backspin</translation>
    </message>
    <message>
        <source>Stroke</source>
        <translation>Schlagart</translation>
    </message>
    <message>
        <source>Decides where the pictures leave two senses of turning; a shot may say otherwise (its menu in Reading)</source>
        <translation>Entscheidet, wo die Bilder zwei Drehsinne zulassen; ein Schlag kann anders angeben (sein Menü unter Ablesen)</translation>
    </message>
</context>
<context>
    <name>ui::footage::AssignPanel</name>
    <message>
        <source>name of the implement</source>
        <translation>Name des Geräts</translation>
    </message>
    <message>
        <source>Implement</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>name of the hitter</source>
        <translation>Name des Spielers</translation>
    </message>
    <message>
        <source>Hitter</source>
        <translation>Spieler</translation>
    </message>
    <message>
        <source>Assign</source>
        <translation>Zuordnen</translation>
    </message>
    <message>
        <source>What strikes the ball. A new name adds an implement.</source>
        <translation>Womit der Ball geschlagen wird. Ein neuer Name fügt ein Gerät hinzu.</translation>
    </message>
    <message>
        <source>Who swings it. A new name adds a hitter.</source>
        <translation>Wer es schwingt. Ein neuer Name fügt einen Spieler hinzu.</translation>
    </message>
    <message>
        <source>Assign (choose clips or shots first)</source>
        <translation>Zuordnen (erst Clips oder Schläge wählen)</translation>
    </message>
    <message>
        <source>Assign %1</source>
        <translation>%1 zuordnen</translation>
    </message>
</context>
<context>
    <name>ui::footage::ClipFilterBar</name>
    <message>
        <source>All</source>
        <translation>Alle</translation>
    </message>
    <message>
        <source>Every clip</source>
        <translation>Alle Clips</translation>
    </message>
    <message>
        <source>Not assigned</source>
        <translation>Nicht zugeordnet</translation>
    </message>
    <message>
        <source>Clips with a shot that belongs to no implement yet</source>
        <translation>Clips mit einem Schlag, der noch zu keinem Gerät gehört</translation>
    </message>
    <message>
        <source>To settle</source>
        <translation>Zu klären</translation>
    </message>
    <message>
        <source>Clips whose capture rate, file or time stamps need a look</source>
        <translation>Clips, bei denen Aufnahmerate, Datei oder Zeitstempel zu prüfen sind</translation>
    </message>
    <message>
        <source>Find a clip</source>
        <translation>Clip suchen</translation>
    </message>
    <message>
        <source>Words of a clip&apos;s name, an implement or a hitter</source>
        <translation>Wörter aus dem Namen eines Clips, eines Geräts oder eines Spielers</translation>
    </message>
</context>
<context>
    <name>ui::footage::ClipList</name>
    <message>
        <source>No clips yet</source>
        <translation>Noch keine Clips</translation>
    </message>
    <message>
        <source>Add the files or the whole folder from your camera with the buttons above, or drop them here. Film side on with the camera fixed, the ball in view for at least one whole turn after the strike.</source>
        <translation>Fügen Sie mit den Knöpfen oben die Dateien oder den ganzen Ordner Ihrer Kamera hinzu, oder ziehen Sie sie hierher. Filmen Sie von der Seite mit fester Kamera, den Ball nach dem Treffmoment mindestens eine ganze Umdrehung im Bild.</translation>
    </message>
    <message>
        <source>Clips</source>
        <translation>Clips</translation>
    </message>
</context>
<context>
    <name>ui::footage::ClipMenu</name>
    <message>
        <source>Remove…</source>
        <translation>Entfernen…</translation>
    </message>
    <message>
        <source>Read its shots</source>
        <translation>Seine Schläge ablesen</translation>
    </message>
    <message>
        <source>Find shots</source>
        <translation>Schläge suchen</translation>
    </message>
    <message>
        <source>Show where it is…</source>
        <translation>Zeigen, wo er ist…</translation>
    </message>
    <message>
        <source>Move to day</source>
        <translation>Auf Drehtag verschieben</translation>
    </message>
    <message>
        <source>Turn</source>
        <translation>Drehen</translation>
    </message>
    <message>
        <source>New filming day…</source>
        <translation>Neuer Drehtag…</translation>
    </message>
    <message>
        <source>As the file says</source>
        <translation>Wie die Datei sagt</translation>
    </message>
    <message>
        <source>Quarter turn right</source>
        <translation>Viertel nach rechts</translation>
    </message>
    <message>
        <source>Upside down</source>
        <translation>Auf dem Kopf</translation>
    </message>
    <message>
        <source>Quarter turn left</source>
        <translation>Viertel nach links</translation>
    </message>
    <message>
        <source>Remove clips</source>
        <translation>Clips entfernen</translation>
    </message>
    <message>
        <source>Undo brings everything back. The files stay where they are.</source>
        <translation>Rückgängig bringt alles zurück. Die Dateien bleiben, wo sie sind.</translation>
    </message>
    <message>
        <source>Remove</source>
        <translation>Entfernen</translation>
    </message>
    <message>
        <source>%1 on it: %2. They are read again and stay kept with their new numbers; the old ones stay in the history.</source>
        <translation>%1 darauf: %2. Sie werden neu abgelesen und bleiben mit ihren neuen Zahlen behalten; die alten bleiben im Verlauf.</translation>
    </message>
    <message>
        <source>%1, read again</source>
        <translation>%1, neu ablesen</translation>
    </message>
    <message>
        <source>Move</source>
        <translation>Verschieben</translation>
    </message>
    <message>
        <source>Move %1 to another filming day?</source>
        <translation>%1 auf einen anderen Drehtag verschieben?</translation>
    </message>
    <message>
        <source>New filming day</source>
        <translation>Neuer Drehtag</translation>
    </message>
    <message>
        <source>Name of the filming day</source>
        <translation>Name des Drehtags</translation>
    </message>
    <message>
        <source>Turn %1?</source>
        <translation>%1 drehen?</translation>
    </message>
</context>
<context>
    <name>ui::footage::ClipTimeLine</name>
    <message>
        <source>Time line of the clip</source>
        <translation>Zeitleiste des Clips</translation>
    </message>
    <message>
        <source>Click to look at a frame; drag the edges of a shot, or the triangle of its strike.
←/→ one frame, with Shift ten. N: new shot here. Of the chosen shot: F first frame here, E last frame here, T strike here, 2 splits it here, 1 joins it with the next, Delete removes it.</source>
        <translation>Klicken zeigt ein Bild; ziehen Sie die Grenzen eines Schlags oder das Dreieck seines Treffmoments.
←/→ ein Bild, mit Umschalt zehn. N: neuer Schlag hier. Vom gewählten Schlag: F erstes Bild hier, E letztes Bild hier, T Treffmoment hier, 2 teilt ihn hier, 1 verbindet ihn mit dem nächsten, Entf entfernt.</translation>
    </message>
    <message>
        <source>frames %1 to %2</source>
        <translation>Bilder %1 bis %2</translation>
    </message>
    <message>
        <source>%1, strike at frame %2</source>
        <translation>%1, Treffmoment in Bild %2</translation>
    </message>
</context>
<context>
    <name>ui::footage::ClipViewer</name>
    <message>
        <source>Show where it is…</source>
        <translation>Zeigen, wo er ist…</translation>
    </message>
    <message>
        <source>The file is recognised by its content, whatever its name is now</source>
        <translation>Die Datei wird am Inhalt erkannt, wie sie jetzt auch heißt</translation>
    </message>
    <message>
        <source>frame %1</source>
        <translation>Bild %1</translation>
    </message>
    <message>
        <source>Frame %1 cannot be shown. %2</source>
        <translation>Bild %1 lässt sich nicht zeigen. %2</translation>
    </message>
    <message>
        <source>Choose a clip to look at it.</source>
        <translation>Wählen Sie einen Clip, um ihn anzusehen.</translation>
    </message>
    <message>
        <source>Show where the clip is</source>
        <translation>Zeigen, wo der Clip ist</translation>
    </message>
</context>
<context>
    <name>ui::footage::ClockCheckPanel</name>
    <message>
        <source>Instants of the check</source>
        <translation>Zeitpunkte der Prüfung</translation>
    </message>
    <message>
        <source>Speed, rpm</source>
        <translation>Drehzahl, U/min</translation>
    </message>
    <message>
        <source>Speed in turns per minute</source>
        <translation>Drehzahl in Umdrehungen je Minute</translation>
    </message>
    <message>
        <source>Turns per minute, for example 33 1/3</source>
        <translation>Umdrehungen je Minute, zum Beispiel 33 1/3</translation>
    </message>
    <message>
        <source>How well it is known</source>
        <translation>Wie genau sie bekannt ist</translation>
    </message>
    <message>
        <source>What is shown in this frame</source>
        <translation>Was dieses Bild zeigt</translation>
    </message>
    <message>
        <source>What the frame in the picture above shows (Enter marks it)</source>
        <translation>Was das Bild oben zeigt (Enter markiert es)</translation>
    </message>
    <message>
        <source>Mark</source>
        <translation>Markieren</translation>
    </message>
    <message>
        <source>Marks the frame in the picture above with it (Enter)</source>
        <translation>Markiert damit das Bild oben (Enter)</translation>
    </message>
    <message>
        <source>Remove</source>
        <translation>Entfernen</translation>
    </message>
    <message>
        <source>Removes the chosen frame from the check (Delete)</source>
        <translation>Entfernt das gewählte Bild aus der Prüfung (Entf)</translation>
    </message>
    <message>
        <source>Use this check</source>
        <translation>Prüfung verwenden</translation>
    </message>
    <message>
        <source>The clocks of these clips use it; Undo takes it back</source>
        <translation>Die Uhren dieser Clips verwenden sie; Rückgängig nimmt es zurück</translation>
    </message>
    <message>
        <source>Withdraw checks</source>
        <translation>Prüfungen zurückziehen</translation>
    </message>
    <message>
        <source>Withdraws the clock checks of this clip, for all clips that have them</source>
        <translation>Zieht die Uhrprüfungen dieses Clips zurück, für alle Clips, die sie haben</translation>
    </message>
    <message>
        <source>What was filmed, with the settings of your clips</source>
        <translation>Was gefilmt wurde, mit den Einstellungen Ihrer Clips</translation>
    </message>
    <message>
        <source>Stopwatch</source>
        <translation>Stoppuhr</translation>
    </message>
    <message>
        <source>Turntable or spinning rig</source>
        <translation>Plattenteller oder Drehvorrichtung</translation>
    </message>
    <message>
        <source>The clips that were filmed with the same settings</source>
        <translation>Die Clips, die mit denselben Einstellungen gefilmt sind</translation>
    </message>
    <message>
        <source>Filmed</source>
        <translation>Gefilmt</translation>
    </message>
    <message>
        <source>Marked</source>
        <translation>Markiert</translation>
    </message>
    <message>
        <source>Counts for</source>
        <translation>Gilt für</translation>
    </message>
    <message>
        <source>Film something of known speed with the settings of your clips, and mark two or more frames, far apart, with what they show.</source>
        <translation>Filmen Sie etwas mit bekannter Geschwindigkeit mit den Einstellungen Ihrer Clips und markieren Sie zwei oder mehr weit auseinanderliegende Bilder mit dem, was sie zeigen.</translation>
    </message>
    <message>
        <source>Known to ± %</source>
        <translation>Bekannt auf ± %</translation>
    </message>
    <message>
        <source>Read to ± s</source>
        <translation>Abgelesen auf ± s</translation>
    </message>
    <message>
        <source>Standard uncertainty of the speed in per cent; the proposal is for a speed that nobody has measured</source>
        <translation>Standardunsicherheit der Drehzahl in Prozent; der Vorschlag gilt für eine Drehzahl, die niemand gemessen hat</translation>
    </message>
    <message>
        <source>How well a picture of the stopwatch tells an instant, in seconds; the proposal is for a stopwatch on a screen</source>
        <translation>Wie genau ein Bild der Stoppuhr einen Augenblick zeigt, in Sekunden; der Vorschlag gilt für eine Stoppuhr auf einem Bildschirm</translation>
    </message>
    <message>
        <source>turns made, 0 in the first frame</source>
        <translation>gemachte Umdrehungen, 0 im ersten Bild</translation>
    </message>
    <message>
        <source>for example 12.34 or 1:02.50</source>
        <translation>zum Beispiel 12,34 oder 1:02,50</translation>
    </message>
    <message>
        <source>Frame %1</source>
        <translation>Bild %1</translation>
    </message>
    <message>
        <source>%1 chosen in the list</source>
        <translation>%1, in der Liste gewählt</translation>
    </message>
    <message>
        <source>this clip only</source>
        <translation>nur dieser Clip</translation>
    </message>
    <message>
        <source>frame %1: %2 %3</source>
        <translation>Bild %1: %2 %3</translation>
    </message>
    <message>
        <source>turns</source>
        <translation>Umdrehungen</translation>
    </message>
    <message>
        <source>Captured at %1 ± %2 frames per second (standard uncertainty).</source>
        <translation>Aufgenommen mit %1 ± %2 Bildern je Sekunde (Standardunsicherheit).</translation>
    </message>
    <message>
        <source>%1 of the day with the same settings</source>
        <translation>%1 des Drehtags mit denselben Einstellungen</translation>
    </message>
</context>
<context>
    <name>ui::footage::ClockPanel</name>
    <message>
        <source>Count frames, not time stamps</source>
        <translation>Bilder zählen, nicht Zeitstempel</translation>
    </message>
    <message>
        <source>Do not use the file&apos;s rate</source>
        <translation>Rate der Datei nicht verwenden</translation>
    </message>
    <message>
        <source>Use this rate</source>
        <translation>Diese Rate verwenden</translation>
    </message>
    <message>
        <source>Withdraw</source>
        <translation>Zurückziehen</translation>
    </message>
    <message>
        <source>Uses this capture rate for all these clips; one Undo takes it back</source>
        <translation>Verwendet diese Aufnahmerate für all diese Clips; einmal Rückgängig nimmt es zurück</translation>
    </message>
    <message>
        <source>for example 240</source>
        <translation>zum Beispiel 240</translation>
    </message>
    <message>
        <source>Capture rate in frames per second</source>
        <translation>Aufnahmerate in Bildern je Sekunde</translation>
    </message>
    <message>
        <source>Frames that the camera took in a second, whatever the file plays at</source>
        <translation>Bilder, die die Kamera je Sekunde aufnahm, gleich wie schnell die Datei abgespielt wird</translation>
    </message>
    <message>
        <source>This rate will be used, and your entry recorded (Enter)</source>
        <translation>Diese Rate gilt dann, und Ihre Angabe wird festgehalten (Enter)</translation>
    </message>
    <message>
        <source>Removes your entry; the other evidence decides</source>
        <translation>Entfernt Ihre Angabe; die anderen Belege entscheiden</translation>
    </message>
    <message>
        <source>For a clip whose times an editor changed: frame i is then taken at i / capture rate, whatever its time stamp says</source>
        <translation>Für einen Clip, dessen Zeiten ein Schnittprogramm geändert hat: Bild i gilt dann als zur Zeit i / Aufnahmerate aufgenommen, was auch sein Zeitstempel sagt</translation>
    </message>
    <message>
        <source>The tag is still shown but not used; your entry decides</source>
        <translation>Die Angabe der Datei wird noch gezeigt, aber nicht verwendet; Ihre Angabe entscheidet</translation>
    </message>
    <message>
        <source>Capture rate, frames/s</source>
        <translation>Aufnahmerate, Bilder/s</translation>
    </message>
    <message>
        <source>Use %1 for %2</source>
        <translation>%1 für %2 verwenden</translation>
    </message>
    <message>
        <source>%1 on this rate: %2. They are read again with it.</source>
        <translation>%1 auf dieser Rate: %2. Sie werden damit neu abgelesen.</translation>
    </message>
    <message>
        <source>Choose a clip to see its clock.</source>
        <translation>Wählen Sie einen Clip, um seine Uhr zu sehen.</translation>
    </message>
    <message>
        <source>%1 frames/s</source>
        <translation>%1 Bilder/s</translation>
    </message>
    <message>
        <source>an unknown rate</source>
        <translation>unbekannter Rate</translation>
    </message>
    <message>
        <source>Plays at %1, captured at %2 (%3; %4)</source>
        <translation>Läuft mit %1, aufgenommen mit %2 (%3; %4)</translation>
    </message>
    <message>
        <source>Plays at %1, captured at %2: shots on it cannot be read yet</source>
        <translation>Läuft mit %1, aufgenommen mit %2: Schläge darauf lassen sich noch nicht ablesen</translation>
    </message>
    <message>
        <source>Shots were looked for by sound and movement.</source>
        <translation>Nach Schlägen wurde mit Ton und Bewegung gesucht.</translation>
    </message>
    <message>
        <source>No faults were found in the time stamps.</source>
        <translation>Keine Fehler in den Zeitstempeln gefunden.</translation>
    </message>
</context>
<context>
    <name>ui::footage::DayAssignPanel</name>
    <message>
        <source>By slate cards</source>
        <translation>Nach Ansagekarten</translation>
    </message>
    <message>
        <source>By order of the plan</source>
        <translation>Nach der Reihenfolge des Plans</translation>
    </message>
    <message>
        <source>Assign anyway</source>
        <translation>Trotzdem zuordnen</translation>
    </message>
    <message>
        <source>Looks through the clips of the filming day for cards and assigns the shots after each; shots that are assigned stay so</source>
        <translation>Sucht in den Clips des Drehtags nach Karten und ordnet die Schläge nach jeder Karte zu; zugeordnete Schläge bleiben so</translation>
    </message>
    <message>
        <source>The first shot found is the first one planned, and so on; shots that are assigned stay so</source>
        <translation>Der erste gefundene Schlag ist der erste geplante und so weiter; zugeordnete Schläge bleiben so</translation>
    </message>
    <message>
        <source>Shot by shot from the first one on, as far as shots and plan both reach; one undo takes it back</source>
        <translation>Schlag für Schlag vom ersten an, so weit Schläge und Plan beide reichen; einmal Rückgängig nimmt es zurück</translation>
    </message>
    <message>
        <source>Looking for slate cards…</source>
        <translation>Ansagekarten werden gesucht…</translation>
    </message>
    <message>
        <source>Looking for slate cards</source>
        <translation>Ansagekarten werden gesucht</translation>
    </message>
    <message>
        <source>clip %1 of %2</source>
        <translation>Clip %1 von %2</translation>
    </message>
    <message>
        <source>Assigned: %1. Already right: %2. Assigned differently and not changed: %3. Not assigned: %4.</source>
        <translation>Zugeordnet: %1. Schon richtig: %2. Anders zugeordnet und nicht geändert: %3. Nicht zugeordnet: %4.</translation>
    </message>
</context>
<context>
    <name>ui::footage::FootageScreen</name>
    <message>
        <source>Assign chosen shots</source>
        <translation>Gewählte Schläge zuordnen</translation>
    </message>
    <message>
        <source>Assign the shots of a filming day</source>
        <translation>Schläge eines Drehtags zuordnen</translation>
    </message>
    <message>
        <source>Clock of this clip</source>
        <translation>Uhr dieses Clips</translation>
    </message>
    <message>
        <source>Clock check</source>
        <translation>Uhrprüfung</translation>
    </message>
    <message>
        <source>%1 of %2</source>
        <translation>%1 von %2</translation>
    </message>
    <message>
        <source>this clip</source>
        <translation>diesem Clip</translation>
    </message>
    <message>
        <source>%1 in %2</source>
        <translation>%1 in %2</translation>
    </message>
    <message>
        <source>%1 without a known capture rate</source>
        <translation>%1 ohne bekannte Aufnahmerate</translation>
    </message>
    <message>
        <source>%1 not assigned</source>
        <translation>%1 nicht zugeordnet</translation>
    </message>
</context>
<context>
    <name>ui::footage::FramePreview</name>
    <message>
        <source>Picture of the clip</source>
        <translation>Bild des Clips</translation>
    </message>
</context>
<context>
    <name>ui::footage::IntakePanel</name>
    <message>
        <source>Also:</source>
        <translation>Außerdem:</translation>
    </message>
    <message>
        <source>Add clips…</source>
        <translation>Clips hinzufügen…</translation>
    </message>
    <message>
        <source>Video files from the camera (Ctrl+Shift+A); they can also be dropped here</source>
        <translation>Videodateien der Kamera (Strg+Umschalt+A); sie lassen sich auch hierher ziehen</translation>
    </message>
    <message>
        <source>Add a folder…</source>
        <translation>Ordner hinzufügen…</translation>
    </message>
    <message>
        <source>All clips in a folder and the folders in it, such as a memory card (Ctrl+Shift+F)</source>
        <translation>Alle Clips in einem Ordner und seinen Unterordnern, etwa einer Speicherkarte (Strg+Umschalt+F)</translation>
    </message>
    <message>
        <source>The filming day that new clips belong to</source>
        <translation>Der Drehtag, zu dem neue Clips gehören</translation>
    </message>
    <message>
        <source>Name of the new filming day</source>
        <translation>Name des neuen Drehtags</translation>
    </message>
    <message>
        <source>Read slate cards</source>
        <translation>Ansagekarten lesen</translation>
    </message>
    <message>
        <source>Assigns shots by the slate cards in the clips; what is assigned already stays so</source>
        <translation>Ordnet Schläge nach den Ansagekarten in den Clips zu; was zugeordnet ist, bleibt so</translation>
    </message>
    <message>
        <source>Read the shots</source>
        <translation>Schläge ablesen</translation>
    </message>
    <message>
        <source>Reads each shot from its pictures, so that its proposal is there at once in Reading; takes some seconds a shot</source>
        <translation>Liest jeden Schlag aus seinen Bildern ab, damit der Vorschlag unter Ablesen gleich da ist; dauert einige Sekunden je Schlag</translation>
    </message>
    <message>
        <source>Set up the day…</source>
        <translation>Tag einrichten…</translation>
    </message>
    <message>
        <source>Ball, capture rate and camera of the filming day, said once for all its clips (Ctrl+B)</source>
        <translation>Ball, Aufnahmerate und Kamera des Drehtags, einmal für alle Clips angegeben (Strg+B)</translation>
    </message>
    <message>
        <source>into</source>
        <translation>in</translation>
    </message>
    <message>
        <source>Test clip…</source>
        <translation>Probeclip…</translation>
    </message>
    <message>
        <source>Tells before the filming day whether a clip of a few strikes is filmed well enough</source>
        <translation>Sagt zu einem Clip mit wenigen Schlägen, ob er gut genug gefilmt ist, vor dem Drehtag</translation>
    </message>
    <message>
        <source>How far the intake is in this step</source>
        <translation>Wie weit das Einlesen in diesem Schritt ist</translation>
    </message>
    <message>
        <source>Cancel</source>
        <translation>Abbrechen</translation>
    </message>
    <message>
        <source>Stops; what is in the project stays. Add the same files again to go on</source>
        <translation>Hält an; was im Projekt ist, bleibt. Fügen Sie dieselben Dateien wieder hinzu, um fortzufahren</translation>
    </message>
    <message>
        <source>Result of the intake</source>
        <translation>Ergebnis des Einlesens</translation>
    </message>
    <message>
        <source>Dismiss</source>
        <translation>Ausblenden</translation>
    </message>
    <message>
        <source>Hides this report</source>
        <translation>Blendet diesen Bericht aus</translation>
    </message>
    <message>
        <source>Add clips</source>
        <translation>Clips hinzufügen</translation>
    </message>
    <message>
        <source>Add a folder of clips</source>
        <translation>Ordner mit Clips hinzufügen</translation>
    </message>
</context>
<context>
    <name>ui::footage::IntakeRunner</name>
    <message>
        <source>looking through the folders</source>
        <translation>Ordner werden durchsucht</translation>
    </message>
    <message>
        <source>Cancelled.</source>
        <translation>Abgebrochen.</translation>
    </message>
</context>
<context>
    <name>ui::footage::SessionBox</name>
    <message>
        <source>Filming day</source>
        <translation>Drehtag</translation>
    </message>
    <message>
        <source>a new filming day</source>
        <translation>ein neuer Drehtag</translation>
    </message>
    <message>
        <source>none yet</source>
        <translation>noch keiner</translation>
    </message>
</context>
<context>
    <name>ui::footage::SessionPanel</name>
    <message>
        <source>Not now</source>
        <translation>Nicht jetzt</translation>
    </message>
    <message>
        <source>not known</source>
        <translation>nicht bekannt</translation>
    </message>
    <message>
        <source>Ball marking</source>
        <translation>Markierung des Balls</translation>
    </message>
    <message>
        <source>Stroke</source>
        <translation>Schlagart</translation>
    </message>
    <message>
        <source>side camera, 26 mm, 8 m away</source>
        <translation>Kamera seitlich, 26 mm, 8 m entfernt</translation>
    </message>
    <message>
        <source>In your words; published with the method, so that others can film alike</source>
        <translation>In Ihren Worten; wird mit der Methode veröffentlicht, damit andere gleich filmen können</translation>
    </message>
    <message>
        <source>Camera, lens, distance</source>
        <translation>Kamera, Objektiv, Abstand</translation>
    </message>
    <message>
        <source>Keeps it for every clip of the day, also for those that come later (Enter); undo takes it back</source>
        <translation>Gilt für jeden Clip des Tages, auch für spätere (Enter); Rückgängig nimmt es zurück</translation>
    </message>
    <message>
        <source>Leaves the set-up as it is (Escape)</source>
        <translation>Lässt die Einrichtung, wie sie ist (Esc)</translation>
    </message>
    <message>
        <source>No filming day.</source>
        <translation>Kein Drehtag.</translation>
    </message>
    <message>
        <source>Filming day</source>
        <translation>Drehtag</translation>
    </message>
    <message>
        <source>Filming day: %1</source>
        <translation>Drehtag: %1</translation>
    </message>
    <message>
        <source>the plan</source>
        <translation>dem Plan</translation>
    </message>
    <message>
        <source>Said once for every clip of the day.</source>
        <translation>Einmal angegeben für jeden Clip des Tages.</translation>
    </message>
    <message>
        <source>Said once for every clip of the day. Filled in from %1: check that it is right today.</source>
        <translation>Einmal angegeben für jeden Clip des Tages. Ausgefüllt aus %1: Prüfen Sie, ob es heute stimmt.</translation>
    </message>
    <message>
        <source>%1 and %2</source>
        <translation>%1 und %2</translation>
    </message>
    <message>
        <source>enter it in mm, %1 or more</source>
        <translation>geben Sie ihn in mm ein, mindestens %1</translation>
    </message>
    <message>
        <source>Use for this day</source>
        <translation>Für diesen Tag verwenden</translation>
    </message>
    <message>
        <source>Use, read %1 again</source>
        <translation>Verwenden, %1 neu ablesen</translation>
    </message>
    <message>
        <source>%1 on what you changed: %2. They are read again and stay kept with their new numbers; the old ones stay in the history.</source>
        <translation>%1 auf dem, was Sie geändert haben: %2. Sie werden neu abgelesen und bleiben mit ihren neuen Zahlen behalten; die alten bleiben im Verlauf.</translation>
    </message>
    <message>
        <source>%1 and %2 more</source>
        <translation>%1 und %2 weitere</translation>
    </message>
    <message>
        <source>Ball diameter</source>
        <translation>Balldurchmesser</translation>
    </message>
    <message>
        <source>mm</source>
        <translation>mm</translation>
    </message>
    <message>
        <source>With it the fall of the ball checks the capture rate, and speeds are known</source>
        <translation>Damit prüft das Fallen des Balls die Aufnahmerate, und Geschwindigkeiten sind bekannt</translation>
    </message>
    <message>
        <source>Capture rate</source>
        <translation>Aufnahmerate</translation>
    </message>
    <message>
        <source>frames/s</source>
        <translation>Bilder/s</translation>
    </message>
    <message>
        <source>At which the camera sampled, as its manual or menu says; slow motion plays slower</source>
        <translation>Mit der die Kamera aufnahm, wie ihr Handbuch oder Menü sagt; Zeitlupe läuft langsamer</translation>
    </message>
    <message>
        <source>Exposure</source>
        <translation>Belichtungszeit</translation>
    </message>
    <message>
        <source>ms</source>
        <translation>ms</translation>
    </message>
    <message>
        <source>How long the shutter is open: 1 for 1/1000 s</source>
        <translation>Wie lange der Verschluss offen ist: 1 für 1/1000 s</translation>
    </message>
    <message>
        <source>Shutter readout</source>
        <translation>Auslesezeit</translation>
    </message>
    <message>
        <source>Time that a rolling shutter takes from the top row to the bottom row</source>
        <translation>Zeit, die ein zeilenweiser Verschluss von der obersten bis zur untersten Zeile braucht</translation>
    </message>
    <message>
        <source>Field of view</source>
        <translation>Bildwinkel</translation>
    </message>
    <message>
        <source>Horizontal angle that the camera sees</source>
        <translation>Waagrechter Winkel, den die Kamera sieht</translation>
    </message>
</context>
<context>
    <name>ui::footage::ShotFinder</name>
    <message>
        <source>Looking for shots in %1</source>
        <translation>Schläge werden gesucht in %1</translation>
    </message>
</context>
<context>
    <name>ui::footage::ShotList</name>
    <message>
        <source>Shots of the clip</source>
        <translation>Schläge des Clips</translation>
    </message>
    <message>
        <source>Find shots</source>
        <translation>Schläge suchen</translation>
    </message>
    <message>
        <source>Looks for strikes by sound and movement in the chosen clips (Ctrl+F); shots that are there already stay as they are</source>
        <translation>Sucht mit Ton und Bewegung Schläge in den gewählten Clips (Strg+F); vorhandene Schläge bleiben, wie sie sind</translation>
    </message>
    <message>
        <source>New shot here</source>
        <translation>Neuer Schlag hier</translation>
    </message>
    <message>
        <source>A shot that is struck at the frame shown (N on the time line)</source>
        <translation>Ein Schlag mit dem Treffmoment im gezeigten Bild (N auf der Zeitleiste)</translation>
    </message>
    <message>
        <source>Split here</source>
        <translation>Hier teilen</translation>
    </message>
    <message>
        <source>Makes two of the chosen shot, the second from the frame shown on (2 on the time line)</source>
        <translation>Macht aus dem gewählten Schlag zwei, den zweiten ab dem gezeigten Bild (2 auf der Zeitleiste)</translation>
    </message>
    <message>
        <source>Join with next</source>
        <translation>Mit nächstem verbinden</translation>
    </message>
    <message>
        <source>Makes one of the chosen shot and the one after it (1 on the time line)</source>
        <translation>Macht aus dem gewählten Schlag und dem nächsten einen (1 auf der Zeitleiste)</translation>
    </message>
    <message>
        <source>Removes the chosen shots and their readings (Delete on the time line); Undo brings them back, finding shots again does not</source>
        <translation>Entfernt die gewählten Schläge und ihre Ablesungen (Entf auf der Zeitleiste); Rückgängig bringt sie zurück, neues Suchen nicht</translation>
    </message>
    <message>
        <source>Shots</source>
        <translation>Schläge</translation>
    </message>
    <message>
        <source>Choose one shot first, on the time line or in the list.</source>
        <translation>Wählen Sie zuerst einen Schlag, auf der Zeitleiste oder in der Liste.</translation>
    </message>
    <message>
        <source>Read this shot</source>
        <translation>Diesen Schlag ablesen</translation>
    </message>
    <message>
        <source>Show its doubts</source>
        <translation>Zweifel daran zeigen</translation>
    </message>
    <message>
        <source>Remove shots</source>
        <translation>Schläge entfernen</translation>
    </message>
</context>
<context>
    <name>ui::footage::TestClipWindow</name>
    <message>
        <source>Choose a clip…</source>
        <translation>Clip wählen…</translation>
    </message>
    <message>
        <source>Judge again</source>
        <translation>Neu beurteilen</translation>
    </message>
    <message>
        <source>Print…</source>
        <translation>Drucken…</translation>
    </message>
    <message>
        <source>Test clip</source>
        <translation>Probeclip</translation>
    </message>
    <message>
        <source>Film a few strikes first, and drop the clip here</source>
        <translation>Filmen Sie zuerst wenige Schläge und ziehen Sie den Clip hierher</translation>
    </message>
    <message>
        <source>Turnmark says whether shots filmed like this can be read, and what to change before you film hundreds. Nothing goes into a project.</source>
        <translation>Turnmark sagt, ob sich so gefilmte Schläge ablesen lassen und was zu ändern ist, bevor Sie Hunderte filmen. Nichts kommt in ein Projekt.</translation>
    </message>
    <message>
        <source>not known</source>
        <translation>nicht bekannt</translation>
    </message>
    <message>
        <source>Ball diameter in mm</source>
        <translation>Balldurchmesser in mm</translation>
    </message>
    <message>
        <source>Capture rate in frames per second</source>
        <translation>Aufnahmerate in Bildern je Sekunde</translation>
    </message>
    <message>
        <source>As the camera&apos;s manual says; empty: as the file says, if it does</source>
        <translation>Wie das Handbuch der Kamera sagt; leer: wie die Datei sagt, wenn sie es sagt</translation>
    </message>
    <message>
        <source>Ball diameter, mm</source>
        <translation>Balldurchmesser, mm</translation>
    </message>
    <message>
        <source>Capture rate, frames/s</source>
        <translation>Aufnahmerate, Bilder/s</translation>
    </message>
    <message>
        <source>Ball marking</source>
        <translation>Markierung des Balls</translation>
    </message>
    <message>
        <source>With what is entered above, for example the ball&apos;s diameter (Enter)</source>
        <translation>Mit dem, was oben steht, zum Beispiel dem Balldurchmesser (Enter)</translation>
    </message>
    <message>
        <source>Writes this as a PDF, with the cautions</source>
        <translation>Schreibt dies als PDF, mit den Sicherheitshinweisen</translation>
    </message>
    <message>
        <source>One of the numbers cannot be used</source>
        <translation>Eine der Zahlen ist nicht verwendbar</translation>
    </message>
    <message>
        <source>Reading %1…</source>
        <translation>%1 wird abgelesen…</translation>
    </message>
    <message>
        <source>Its strikes are found and read, which takes a few seconds each.</source>
        <translation>Seine Schläge werden gesucht und abgelesen; das dauert einige Sekunden je Schlag.</translation>
    </message>
    <message>
        <source>Judging a test clip</source>
        <translation>Ein Probeclip wird beurteilt</translation>
    </message>
    <message>
        <source>%1 cannot be judged</source>
        <translation>%1 lässt sich nicht beurteilen</translation>
    </message>
    <message>
        <source>Print the test clip</source>
        <translation>Probeclip drucken</translation>
    </message>
    <message>
        <source>PDF (*.pdf)</source>
        <translation>PDF (*.pdf)</translation>
    </message>
    <message>
        <source>Wrote %1</source>
        <translation>%1 geschrieben</translation>
    </message>
</context>
<context>
    <name>ui::models</name>
    <message>
        <source>not settled</source>
        <translation>nicht geklärt</translation>
    </message>
    <message>
        <source>%1 frames/s</source>
        <translation>%1 Bilder/s</translation>
    </message>
    <message>
        <source>unknown</source>
        <translation>unbekannt</translation>
    </message>
    <message>
        <source>clock check</source>
        <translation>Uhrprüfung</translation>
    </message>
    <message>
        <source>%1 turns/s</source>
        <translation>%1 U/s</translation>
    </message>
    <message>
        <source>%1 rad/s</source>
        <translation>%1 rad/s</translation>
    </message>
    <message>
        <source>&quot;%1&quot; can be read in two ways. Write %2 or %3.</source>
        <translation>„%1“ lässt sich auf zwei Arten lesen. Schreiben Sie %2 oder %3.</translation>
    </message>
    <message>
        <source>Copy rows as a table</source>
        <translation>Zeilen als Tabelle kopieren</translation>
    </message>
    <message>
        <source>time stamps</source>
        <translation>Zeitstempel</translation>
    </message>
    <message>
        <source>slow motion ×%1</source>
        <translation>Zeitlupe ×%1</translation>
    </message>
    <message>
        <source>frames counted</source>
        <translation>Bilder gezählt</translation>
    </message>
    <message>
        <source>nothing states it</source>
        <translation>nicht angegeben</translation>
    </message>
    <message>
        <source>file&apos;s tag</source>
        <translation>Angabe der Datei</translation>
    </message>
    <message>
        <source>entered by hand</source>
        <translation>von Hand angegeben</translation>
    </message>
</context>
<context>
    <name>ui::models::ClipTableModel</name>
    <message>
        <source>not assigned</source>
        <translation>nicht zugeordnet</translation>
    </message>
    <message>
        <source>%1, partly</source>
        <translation>%1, zum Teil</translation>
    </message>
    <message>
        <source>file not found</source>
        <translation>Datei nicht gefunden</translation>
    </message>
    <message>
        <source>differs from the day</source>
        <translation>weicht vom Tag ab</translation>
    </message>
    <message>
        <source>%1 to check</source>
        <translation>%1 zu prüfen</translation>
    </message>
    <message>
        <source>The file is not there. Add the folder that it is in now, or press &quot;Show where it is…&quot;</source>
        <translation>Die Datei ist nicht da. Fügen Sie den Ordner hinzu, in dem sie jetzt ist, oder drücken Sie „Zeigen, wo er ist…“</translation>
    </message>
    <message>
        <source>Clip</source>
        <translation>Clip</translation>
    </message>
    <message>
        <source>Captured at</source>
        <translation>Aufgenommen mit</translation>
    </message>
    <message>
        <source>Shots</source>
        <translation>Schläge</translation>
    </message>
    <message>
        <source>Implement · hitter</source>
        <translation>Gerät · Spieler</translation>
    </message>
    <message>
        <source>Remarks</source>
        <translation>Bemerkungen</translation>
    </message>
</context>
<context>
    <name>ui::models::PairMatrixModel</name>
    <message>
        <source>Row less column, rpm. ≥ at least the noticeable step · &lt; differs by less · ≈ equivalent within it · ? not settled</source>
        <translation>Zeile minus Spalte, U/min. ≥ mindestens merklich · &lt; weniger als merklich · ≈ gleichwertig · ? nicht geklärt</translation>
    </message>
    <message>
        <source>Row less column, rpm. ≠ differs · ? cannot be told apart. Set a noticeable step for the verdicts.</source>
        <translation>Zeile minus Spalte, U/min. ≠ verschieden · ? nicht zu unterscheiden. Legen Sie für die Urteile einen merklichen Unterschied fest.</translation>
    </message>
</context>
<context>
    <name>ui::models::RankedTableModel</name>
    <message>
        <source>%1 is not compared: %2.</source>
        <translation>%1 ist nicht verglichen: %2.</translation>
    </message>
    <message>
        <source>%1, hitter %2</source>
        <translation>%1, Spieler %2</translation>
    </message>
    <message>
        <source>%1: %2 rpm (%3)</source>
        <translation>%1: %2 U/min (%3)</translation>
    </message>
    <message>
        <source>%1: %2 rpm, no interval</source>
        <translation>%1: %2 U/min, kein Intervall</translation>
    </message>
    <message>
        <source>%1: %2 rpm, no interval: %3</source>
        <translation>%1: %2 U/min, kein Intervall: %3</translation>
    </message>
    <message>
        <source>%1 open</source>
        <translation>%1 offen</translation>
    </message>
    <message>
        <source>no rank</source>
        <translation>kein Rang</translation>
    </message>
    <message>
        <source>rank %1; the readings allow %2 to %3</source>
        <translation>Rang %1; die Ablesungen lassen %2 bis %3 zu</translation>
    </message>
    <message>
        <source>Rank</source>
        <translation>Rang</translation>
    </message>
    <message>
        <source>Implement</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Mean</source>
        <translation>Mittel</translation>
    </message>
    <message>
        <source>sd</source>
        <translation>sd</translation>
    </message>
    <message>
        <source>95 %, rpm</source>
        <translation>95 %, U/min</translation>
    </message>
    <message>
        <source>Spin, rpm</source>
        <translation>Drall, U/min</translation>
    </message>
    <message>
        <source>Band</source>
        <translation>Bereich</translation>
    </message>
    <message>
        <source>Letters</source>
        <translation>Buchstaben</translation>
    </message>
    <message>
        <source>Remarks</source>
        <translation>Bemerkungen</translation>
    </message>
    <message>
        <source>By mean; behind it every rank that the readings allow (95 %)</source>
        <translation>Nach dem Mittel; dahinter jeder Rang, den die Ablesungen zulassen (95 %)</translation>
    </message>
    <message>
        <source>What strikes the ball</source>
        <translation>Womit der Ball geschlagen wird</translation>
    </message>
    <message>
        <source>Kept shots</source>
        <translation>Behaltene Schläge</translation>
    </message>
    <message>
        <source>Mean spin rate, rpm; each hitter weighs the same whatever the number of shots</source>
        <translation>Mittlere Drehzahl, U/min; jeder Spieler wiegt gleich viel, gleich wie viele Schläge er hat</translation>
    </message>
    <message>
        <source>Standard deviation from shot to shot, within the cells, rpm</source>
        <translation>Standardabweichung von Schlag zu Schlag innerhalb der Zellen, U/min (Streuung)</translation>
    </message>
    <message>
        <source>The mean is inside with 95 % confidence; the shared uncertainty of the clocks is included</source>
        <translation>Enthält das Mittel mit 95 % Sicherheit; die gemeinsame Unsicherheit der Uhren ist eingeschlossen</translation>
    </message>
    <message>
        <source>Means with their 95 % intervals, all rows on one axis</source>
        <translation>Mittel mit ihren 95-%-Intervallen, alle Zeilen auf einer Achse</translation>
    </message>
    <message>
        <source>The band that the mean falls into</source>
        <translation>Der Bereich, in den das Mittel fällt</translation>
    </message>
    <message>
        <source>≈: no difference shown from the chosen row</source>
        <translation>≈: kein Unterschied zur gewählten Zeile nachgewiesen</translation>
    </message>
    <message>
        <source>Implements that share a letter cannot be told apart</source>
        <translation>Geräte mit einem gemeinsamen Buchstaben sind nicht zu unterscheiden</translation>
    </message>
    <message>
        <source>What to know before trusting the row</source>
        <translation>Was Sie wissen sollten, bevor Sie der Zeile trauen</translation>
    </message>
</context>
<context>
    <name>ui::models::ShotTableModel</name>
    <message>
        <source>not assigned</source>
        <translation>nicht zugeordnet</translation>
    </message>
    <message>
        <source>to read, doubtful</source>
        <translation>noch abzulesen, zweifelhaft</translation>
    </message>
    <message>
        <source>to read</source>
        <translation>noch abzulesen</translation>
    </message>
    <message>
        <source>kept, doubtful</source>
        <translation>behalten, zweifelhaft</translation>
    </message>
    <message>
        <source>kept</source>
        <translation>behalten</translation>
    </message>
    <message>
        <source>set aside: %1</source>
        <translation>zurückgestellt: %1</translation>
    </message>
    <message>
        <source>Shot</source>
        <translation>Schlag</translation>
    </message>
    <message>
        <source>Frames</source>
        <translation>Bilder</translation>
    </message>
    <message>
        <source>Implement · hitter</source>
        <translation>Gerät · Spieler</translation>
    </message>
    <message>
        <source>Spin, rpm</source>
        <translation>Drall, U/min</translation>
    </message>
    <message>
        <source>State</source>
        <translation>Stand</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Notiz</translation>
    </message>
    <message>
        <source>Hitter</source>
        <translation>Spieler</translation>
    </message>
</context>
<context>
    <name>ui::plan::AdvicePanel</name>
    <message>
        <source>What this plan can show</source>
        <translation>Was dieser Plan zeigen kann</translation>
    </message>
    <message>
        <source>Shots per cell</source>
        <translation>Schläge je Zelle</translation>
    </message>
    <message>
        <source>Smallest difference, rpm</source>
        <translation>Kleinster Unterschied, U/min</translation>
    </message>
    <message>
        <source>%1: %2 rpm</source>
        <translation>%1: %2 U/min</translation>
    </message>
    <message>
        <source>noticeable step %1 rpm</source>
        <translation>merklicher Unterschied %1 U/min</translation>
    </message>
    <message>
        <source>Found between two implements of one hitter with a probability of %1 %. ← and → go from point to point; Enter or a double click plans so many shots.</source>
        <translation>Zwischen zwei Geräten eines Spielers gefunden mit einer Wahrscheinlichkeit von %1 %. ← und → gehen von Punkt zu Punkt; Enter oder ein Doppelklick plant so viele Schläge.</translation>
    </message>
</context>
<context>
    <name>ui::plan::DayModel</name>
    <message>
        <source>rest</source>
        <translation>Pause</translation>
    </message>
    <message>
        <source>%1, control</source>
        <translation>%1, Kontrolle</translation>
    </message>
    <message>
        <source>Shots</source>
        <translation>Schläge</translation>
    </message>
    <message>
        <source>Hitter</source>
        <translation>Spieler</translation>
    </message>
    <message>
        <source>Implement</source>
        <translation>Gerät</translation>
    </message>
</context>
<context>
    <name>ui::plan::HabitChoice</name>
    <message>
        <source>How the frames were counted. Filled: the frames counted from and to. Hollow: when the mark really was at the start and back. When it is not known, all of these are allowed, and the results are less sure.</source>
        <translation>Wie die Bilder gezählt wurden. Gefüllt: die Bilder, von denen und bis zu denen gezählt wurde. Hohl: wann die Marke wirklich am Start und wieder dort war. Ist es nicht bekannt, sind alle diese möglich, und die Ergebnisse sind weniger sicher.</translation>
    </message>
    <message>
        <source>not known</source>
        <translation>nicht bekannt</translation>
    </message>
    <message>
        <source>start exact, nearest return</source>
        <translation>Start genau, nächste Wiederkehr</translation>
    </message>
    <message>
        <source>both ends rounded</source>
        <translation>beide Enden gerundet</translation>
    </message>
    <message>
        <source>first frame at or past the turn</source>
        <translation>erstes Bild mit oder nach der Umdrehung</translation>
    </message>
</context>
<context>
    <name>ui::plan::ImplementModel</name>
    <message>
        <source>Type a name here to add an implement.</source>
        <translation>Tippen Sie hier einen Namen, um ein Gerät hinzuzufügen.</translation>
    </message>
    <message>
        <source>The control: repeated at start, middle and end of the day</source>
        <translation>Die Kontrolle: wiederholt am Anfang, in der Mitte und am Ende des Tages</translation>
    </message>
    <message>
        <source>Implement</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Condition</source>
        <translation>Zustand</translation>
    </message>
    <message>
        <source>Type a name</source>
        <translation>Namen eintippen</translation>
    </message>
</context>
<context>
    <name>ui::plan::PlanScreen</name>
    <message>
        <source>Tables (*.csv *.tsv *.txt);;All files (*)</source>
        <translation>Tabellen (*.csv *.tsv *.txt);;Alle Dateien (*)</translation>
    </message>
    <message>
        <source>Take from the project</source>
        <translation>Aus dem Projekt nehmen</translation>
    </message>
    <message>
        <source>Plans with the implements and hitters that the project has</source>
        <translation>Plant mit den Geräten und Spielern, die das Projekt hat</translation>
    </message>
    <message>
        <source>Paste</source>
        <translation>Einfügen</translation>
    </message>
    <message>
        <source>Takes a table from the clipboard; its first row names the columns</source>
        <translation>Nimmt eine Tabelle aus der Zwischenablage; ihre erste Zeile nennt die Spalten</translation>
    </message>
    <message>
        <source>Import…</source>
        <translation>Importieren…</translation>
    </message>
    <message>
        <source>Takes a table from a file (CSV or TSV)</source>
        <translation>Nimmt eine Tabelle aus einer Datei (CSV oder TSV)</translation>
    </message>
    <message>
        <source>Add column…</source>
        <translation>Spalte hinzufügen…</translation>
    </message>
    <message>
        <source>A column of your own: mass, thickness, price</source>
        <translation>Eine eigene Spalte: Masse, Dicke, Preis</translation>
    </message>
    <message>
        <source>Remove</source>
        <translation>Entfernen</translation>
    </message>
    <message>
        <source>Removes the chosen implements from the plan</source>
        <translation>Entfernt die gewählten Geräte aus dem Plan</translation>
    </message>
    <message>
        <source>Implements</source>
        <translation>Geräte</translation>
    </message>
    <message>
        <source>Order of the day</source>
        <translation>Reihenfolge des Tages</translation>
    </message>
    <message>
        <source>Print the shot list…</source>
        <translation>Schlagliste drucken…</translation>
    </message>
    <message>
        <source>The order with boxes to tick, as PDF</source>
        <translation>Die Reihenfolge mit Kästchen zum Abhaken, als PDF</translation>
    </message>
    <message>
        <source>Print slate cards…</source>
        <translation>Ansagekarten drucken…</translation>
    </message>
    <message>
        <source>A card to film before the shots of each cell, as PDF</source>
        <translation>Eine Karte, die vor den Schlägen jeder Zelle gefilmt wird, als PDF</translation>
    </message>
    <message>
        <source>Import frame counts…</source>
        <translation>Bildzählungen importieren…</translation>
    </message>
    <message>
        <source>Frame counts that were made elsewhere, from a spreadsheet</source>
        <translation>Bildzählungen, die anderswo gemacht wurden, aus einer Tabelle</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>Order of the day: %1; %2.</source>
        <translation>Reihenfolge des Tages: %1; %2.</translation>
    </message>
    <message>
        <source>%1 was read as %2.</source>
        <translation>%1 wurde als %2 gelesen.</translation>
    </message>
    <message>
        <source>Add a column</source>
        <translation>Spalte hinzufügen</translation>
    </message>
    <message>
        <source>What the column is called</source>
        <translation>Wie die Spalte heißt</translation>
    </message>
    <message>
        <source>Print the shot list</source>
        <translation>Schlagliste drucken</translation>
    </message>
    <message>
        <source>PDF (*.pdf)</source>
        <translation>PDF (*.pdf)</translation>
    </message>
    <message>
        <source>Print slate cards</source>
        <translation>Ansagekarten drucken</translation>
    </message>
    <message>
        <source>Wrote %1</source>
        <translation>%1 geschrieben</translation>
    </message>
    <message>
        <source>Import frame counts</source>
        <translation>Bildzählungen importieren</translation>
    </message>
    <message>
        <source>This table was imported before: %1.</source>
        <translation>Diese Tabelle wurde schon importiert: %1.</translation>
    </message>
    <message>
        <source>Imported %1.</source>
        <translation>%1 importiert.</translation>
    </message>
    <message>
        <source>Nothing is planned yet</source>
        <translation>Noch ist nichts geplant</translation>
    </message>
    <message>
        <source>The plan is not complete</source>
        <translation>Der Plan ist nicht vollständig</translation>
    </message>
    <message>
        <source>Type the name of an implement in the empty row, paste a table, or import one; then name the hitters.</source>
        <translation>Tippen Sie in die leere Zeile den Namen eines Geräts, fügen Sie eine Tabelle ein oder importieren Sie eine; nennen Sie dann die Spieler.</translation>
    </message>
    <message>
        <source>%1 planned</source>
        <translation>%1 geplant</translation>
    </message>
    <message>
        <source>%1 find differences from %2 rpm</source>
        <translation>%1 finden Unterschiede ab %2 U/min</translation>
    </message>
    <message>
        <source>Between two implements of one hitter, with a probability of %1 %.</source>
        <translation>Zwischen zwei Geräten eines Spielers, mit einer Wahrscheinlichkeit von %1 %.</translation>
    </message>
</context>
<context>
    <name>ui::plan::SettingsPanel</name>
    <message>
        <source>what the day is called</source>
        <translation>wie der Tag heißt</translation>
    </message>
    <message>
        <source>Stands on the shot list and on every slate card</source>
        <translation>Steht auf der Schlagliste und auf jeder Ansagekarte</translation>
    </message>
    <message>
        <source>names with commas between</source>
        <translation>Namen mit Kommas dazwischen</translation>
    </message>
    <message>
        <source>Who swings; several names with commas between them</source>
        <translation>Wer schwingt; mehrere Namen mit Kommas dazwischen</translation>
    </message>
    <message>
        <source>Shots of every hitter with every implement</source>
        <translation>Schläge jedes Spielers mit jedem Gerät</translation>
    </message>
    <message>
        <source>Shots in a row before the implement changes</source>
        <translation>Schläge in Folge, bevor das Gerät wechselt</translation>
    </message>
    <message>
        <source>random</source>
        <translation>zufällig</translation>
    </message>
    <message>
        <source>implement by implement</source>
        <translation>Gerät für Gerät</translation>
    </message>
    <message>
        <source>balanced places (Latin square)</source>
        <translation>ausgeglichene Plätze (lateinisches Quadrat)</translation>
    </message>
    <message>
        <source>balanced (Williams)</source>
        <translation>ausgeglichen (Williams)</translation>
    </message>
    <message>
        <source>So that fatigue and practice do not favour one implement</source>
        <translation>Damit Ermüdung und Übung kein Gerät bevorzugen</translation>
    </message>
    <message>
        <source>The same seed gives the same order on every machine</source>
        <translation>Derselbe Startwert ergibt auf jedem Rechner dieselbe Reihenfolge</translation>
    </message>
    <message>
        <source>Draw</source>
        <translation>Ziehen</translation>
    </message>
    <message>
        <source>Draws another order (Ctrl+Shift+D)</source>
        <translation>Zieht eine andere Reihenfolge (Strg+Umschalt+D)</translation>
    </message>
    <message>
        <source>Repeated by every hitter at start, middle and end, to see a drift over the day</source>
        <translation>Von jedem Spieler am Anfang, in der Mitte und am Ende wiederholt, um eine Drift über den Tag zu sehen</translation>
    </message>
    <message>
        <source>Control shots of every hitter, each time</source>
        <translation>Kontrollschläge jedes Spielers, jedes Mal</translation>
    </message>
    <message>
        <source>Swings of one hitter before a rest; twenty is common practice</source>
        <translation>Schwünge eines Spielers vor einer Pause; zwanzig sind üblich</translation>
    </message>
    <message>
        <source>Minutes of rest</source>
        <translation>Minuten Pause</translation>
    </message>
    <message>
        <source>Shots and their order</source>
        <translation>Schläge und ihre Reihenfolge</translation>
    </message>
    <message>
        <source>Filming &amp;day</source>
        <translation>Dreh&amp;tag</translation>
    </message>
    <message>
        <source>H&amp;itters</source>
        <translation>Sp&amp;ieler</translation>
    </message>
    <message>
        <source>&amp;Shots per cell</source>
        <translation>&amp;Schläge je Zelle</translation>
    </message>
    <message>
        <source>In a &amp;row</source>
        <translation>In &amp;Folge</translation>
    </message>
    <message>
        <source>&amp;Order</source>
        <translation>&amp;Reihenfolge</translation>
    </message>
    <message>
        <source>Seed</source>
        <translation>Startwert</translation>
    </message>
    <message>
        <source>&amp;Control</source>
        <translation>&amp;Kontrolle</translation>
    </message>
    <message>
        <source>Control shots</source>
        <translation>Kontrollschläge</translation>
    </message>
    <message>
        <source>S&amp;wings between rests</source>
        <translation>Sch&amp;wünge je Pause</translation>
    </message>
    <message>
        <source>Rest, minutes</source>
        <translation>Pause, Minuten</translation>
    </message>
    <message>
        <source>make, age, pressure</source>
        <translation>Marke, Alter, Druck</translation>
    </message>
    <message>
        <source>Which ball is filmed</source>
        <translation>Welcher Ball gefilmt wird</translation>
    </message>
    <message>
        <source>three quarters dark</source>
        <translation>drei Viertel dunkel</translation>
    </message>
    <message>
        <source>half dark</source>
        <translation>halb dunkel</translation>
    </message>
    <message>
        <source>band (alike after half a turn)</source>
        <translation>Band (nach halber Umdrehung gleich)</translation>
    </message>
    <message>
        <source>band with one dot</source>
        <translation>Band mit einem Punkt</translation>
    </message>
    <message>
        <source>other</source>
        <translation>andere</translation>
    </message>
    <message>
        <source>How the ball is marked with the pen</source>
        <translation>Wie der Ball mit dem Stift markiert ist</translation>
    </message>
    <message>
        <source>Ball</source>
        <translation>Ball</translation>
    </message>
    <message>
        <source>&amp;Ball</source>
        <translation>&amp;Ball</translation>
    </message>
    <message>
        <source>&amp;Marking</source>
        <translation>Markierun&amp;g</translation>
    </message>
    <message>
        <source>not known</source>
        <translation>nicht bekannt</translation>
    </message>
    <message>
        <source>Frames per second that the camera takes</source>
        <translation>Bilder je Sekunde, die die Kamera aufnimmt</translation>
    </message>
    <message>
        <source>Milliseconds the shutter is open: 1 for 1/1000 s</source>
        <translation>Millisekunden, die der Verschluss offen ist: 1 für 1/1000 s</translation>
    </message>
    <message>
        <source>Spin you expect, in turns per minute</source>
        <translation>Drall, den Sie erwarten, in Umdrehungen je Minute</translation>
    </message>
    <message>
        <source>Standard deviation from shot to shot that you expect; the readings of this project replace it</source>
        <translation>Standardabweichung von Schlag zu Schlag, die Sie erwarten; Ablesungen dieses Projekts ersetzen sie</translation>
    </message>
    <message>
        <source>Difference in spin that matters to a player; Findings uses it too</source>
        <translation>Unterschied im Drall, auf den es einem Spieler ankommt; auch die Ergebnisse verwenden ihn</translation>
    </message>
    <message>
        <source>Camera and what shall be seen</source>
        <translation>Kamera und was sichtbar sein soll</translation>
    </message>
    <message>
        <source>Cap&amp;ture rate, per s</source>
        <translation>Auf&amp;nahmerate, je s</translation>
    </message>
    <message>
        <source>&amp;Exposure, ms</source>
        <translation>B&amp;elichtungszeit, ms</translation>
    </message>
    <message>
        <source>E&amp;xpected spin, rpm</source>
        <translation>Erwarteter Dra&amp;ll, U/min</translation>
    </message>
    <message>
        <source>Scatter, rpm</source>
        <translation>Streuung, U/min</translation>
    </message>
    <message>
        <source>&amp;Noticeable step, rpm</source>
        <translation>&amp;Merklicher Unterschied, U/min</translation>
    </message>
    <message>
        <source>The seed &quot;%1&quot; is not a whole number.</source>
        <translation>Der Startwert „%1“ ist keine ganze Zahl.</translation>
    </message>
    <message>
        <source>none</source>
        <translation>keine</translation>
    </message>
</context>
<context>
    <name>ui::plan::TallyColumns</name>
    <message>
        <source>Column</source>
        <translation>Spalte</translation>
    </message>
    <message>
        <source>Holds</source>
        <translation>Enthält</translation>
    </message>
    <message>
        <source>First rows</source>
        <translation>Erste Zeilen</translation>
    </message>
    <message>
        <source>What each column holds</source>
        <translation>Was jede Spalte enthält</translation>
    </message>
    <message>
        <source>What the column %1 holds</source>
        <translation>Was die Spalte %1 enthält</translation>
    </message>
    <message>
        <source>Counts of %1</source>
        <translation>Zählungen von %1</translation>
    </message>
</context>
<context>
    <name>ui::plan::TallyDialog</name>
    <message>
        <source>Import frame counts</source>
        <translation>Bildzählungen importieren</translation>
    </message>
    <message>
        <source>If letters look wrong below, save the table from the spreadsheet as CSV in UTF-8</source>
        <translation>Sehen Buchstaben unten falsch aus, speichern Sie die Tabelle aus dem Tabellenprogramm als CSV in UTF-8</translation>
    </message>
    <message>
        <source>What a row is, as it was recognised; choose where it is not right</source>
        <translation>Was eine Zeile ist, wie es erkannt wurde; wählen Sie, wo es nicht stimmt</translation>
    </message>
    <message>
        <source>&amp;Shape</source>
        <translation>&amp;Form</translation>
    </message>
    <message>
        <source>The first shots as they will be imported</source>
        <translation>Die ersten Schläge, wie sie importiert werden</translation>
    </message>
    <message>
        <source>What each column h&amp;olds</source>
        <translation>Was jede Spalte en&amp;thält</translation>
    </message>
    <message>
        <source>for rows that do not say it</source>
        <translation>für Zeilen, die es nicht sagen</translation>
    </message>
    <message>
        <source>Frames per second that the camera took</source>
        <translation>Bilder je Sekunde, die die Kamera aufnahm</translation>
    </message>
    <message>
        <source>Who hit, where the table does not say it</source>
        <translation>Wer schlug, wo die Tabelle es nicht sagt</translation>
    </message>
    <message>
        <source>Capture &amp;rate, per s</source>
        <translation>Aufnahme&amp;rate, je s</translation>
    </message>
    <message>
        <source>&amp;Hitter</source>
        <translation>S&amp;pieler</translation>
    </message>
    <message>
        <source>&amp;Counted</source>
        <translation>&amp;Gezählt</translation>
    </message>
    <message>
        <source>Progress of the import</source>
        <translation>Fortschritt des Imports</translation>
    </message>
    <message>
        <source>&amp;Import</source>
        <translation>&amp;Importieren</translation>
    </message>
    <message>
        <source>Row</source>
        <translation>Zeile</translation>
    </message>
    <message>
        <source>Implement</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Condition</source>
        <translation>Zustand</translation>
    </message>
    <message>
        <source>Hitter</source>
        <translation>Spieler</translation>
    </message>
    <message>
        <source>Frames</source>
        <translation>Bilder</translation>
    </message>
    <message>
        <source>Turns</source>
        <translation>Umdrehungen</translation>
    </message>
    <message>
        <source>Rate, per s</source>
        <translation>Rate, je s</translation>
    </message>
    <message>
        <source>Spin, rpm</source>
        <translation>Drall, U/min</translation>
    </message>
    <message>
        <source>Decide what is listed above first; until then nothing is imported.</source>
        <translation>Entscheiden Sie zuerst, was oben steht; vorher wird nichts importiert.</translation>
    </message>
    <message>
        <source>%1 will be imported.</source>
        <translation>Importiert werden: %1.</translation>
    </message>
    <message>
        <source>tabs</source>
        <translation>Tabulatoren</translation>
    </message>
    <message>
        <source>semicolons</source>
        <translation>Strichpunkte</translation>
    </message>
    <message>
        <source>commas</source>
        <translation>Kommas</translation>
    </message>
    <message>
        <source>%1, read as %2, separated by %3</source>
        <translation>%1, gelesen als %2, getrennt durch %3</translation>
    </message>
</context>
<context>
    <name>ui::plan::TallyQuestions</name>
    <message>
        <source>and %1 more</source>
        <translation>und %1 weitere</translation>
    </message>
    <message>
        <source>Names that are alike: choose…</source>
        <translation>Ähnliche Namen: wählen…</translation>
    </message>
    <message>
        <source>Names that are alike: one name</source>
        <translation>Ähnliche Namen: ein Name</translation>
    </message>
    <message>
        <source>Names that are alike: kept apart</source>
        <translation>Ähnliche Namen: getrennt</translation>
    </message>
    <message>
        <source>1,000 means: choose…</source>
        <translation>1,000 heißt: wählen…</translation>
    </message>
    <message>
        <source>1,000 means 1</source>
        <translation>1,000 heißt 1</translation>
    </message>
    <message>
        <source>1,000 means 1000</source>
        <translation>1,000 heißt 1000</translation>
    </message>
    <message>
        <source>What is to be decided</source>
        <translation>Was zu entscheiden ist</translation>
    </message>
    <message>
        <source>Leave out %1</source>
        <translation>%1 weglassen</translation>
    </message>
    <message>
        <source>Take %1</source>
        <translation>%1 nehmen</translation>
    </message>
    <message>
        <source>The names of implements %1 differ only in case or spaces.</source>
        <translation>Die Gerätenamen %1 unterscheiden sich nur in Großschreibung oder Leerzeichen.</translation>
    </message>
    <message>
        <source>The names of hitters %1 differ only in case or spaces.</source>
        <translation>Die Spielernamen %1 unterscheiden sich nur in Großschreibung oder Leerzeichen.</translation>
    </message>
    <message>
        <source>The names of conditions %1 differ only in case or spaces.</source>
        <translation>Die Namen der Zustände %1 unterscheiden sich nur in Großschreibung oder Leerzeichen.</translation>
    </message>
    <message>
        <source>%1 and %2</source>
        <translation>%1 und %2</translation>
    </message>
</context>
<context>
    <name>ui::publish</name>
    <message>
        <source>Doubts are being looked for</source>
        <translation>Zweifel werden gesucht</translation>
    </message>
    <message>
        <source>they appear here in a moment</source>
        <translation>sie erscheinen gleich hier</translation>
    </message>
    <message>
        <source>Nothing doubtful is left to check</source>
        <translation>Nichts Zweifelhaftes ist mehr zu prüfen</translation>
    </message>
    <message>
        <source>their pictures were not read: read ahead does that</source>
        <translation>ihre Bilder sind nicht abgelesen: Vorauslesen erledigt das</translation>
    </message>
    <message>
        <source>%1 not read</source>
        <translation>%1 nicht abgelesen</translation>
    </message>
    <message>
        <source>left out of every number</source>
        <translation>in keiner Zahl enthalten</translation>
    </message>
    <message>
        <source>Every shot is decided</source>
        <translation>Jeder Schlag ist entschieden</translation>
    </message>
    <message>
        <source>%1 not assigned</source>
        <translation>%1 nicht zugeordnet</translation>
    </message>
    <message>
        <source>they have no implement and hitter</source>
        <translation>sie haben kein Gerät und keinen Spieler</translation>
    </message>
    <message>
        <source>The shot set aside has a reason</source>
        <translation>Der zurückgestellte Schlag hat eine Begründung</translation>
    </message>
    <message>
        <source>Each shot set aside has a reason</source>
        <translation>Jeder zurückgestellte Schlag hat eine Begründung</translation>
    </message>
    <message>
        <source>%1 no capture rate</source>
        <translation>%1 keine Aufnahmerate</translation>
    </message>
    <message>
        <source>without it nothing can be read</source>
        <translation>ohne sie lässt sich nichts ablesen</translation>
    </message>
    <message>
        <source>Every clip has its capture rate</source>
        <translation>Jeder Clip hat seine Aufnahmerate</translation>
    </message>
    <message>
        <source>Noticeable step: %1 rpm</source>
        <translation>Merklicher Unterschied: %1 U/min</translation>
    </message>
    <message>
        <source>drawn in the chart</source>
        <translation>in der Grafik eingezeichnet</translation>
    </message>
    <message>
        <source>No noticeable step is set</source>
        <translation>Kein merklicher Unterschied festgelegt</translation>
    </message>
    <message>
        <source>nothing says which difference a player notices</source>
        <translation>nichts sagt, welchen Unterschied ein Spieler merkt</translation>
    </message>
    <message>
        <source>Footage</source>
        <translation>Aufnahmen</translation>
    </message>
    <message>
        <source>Reading</source>
        <translation>Ablesen</translation>
    </message>
    <message>
        <source>Doubts</source>
        <translation>Zweifel</translation>
    </message>
    <message>
        <source>Findings</source>
        <translation>Ergebnisse</translation>
    </message>
    <message>
        <source>Published into %1. The page is index.html there.</source>
        <translation>Veröffentlicht in %1. Die Seite ist dort index.html.</translation>
    </message>
    <message>
        <source>Ready to publish</source>
        <translation>Bereit zum Veröffentlichen</translation>
    </message>
    <message>
        <source>Ready, with 1 thing to settle first</source>
        <translation>Bereit; 1 Punkt ist vorher zu klären</translation>
    </message>
    <message>
        <source>Ready, with %1 things to settle first</source>
        <translation>Bereit; %1 Punkte sind vorher zu klären</translation>
    </message>
    <message>
        <source>What stays open is printed on the page.</source>
        <translation>Was offen bleibt, steht auf der Seite.</translation>
    </message>
    <message>
        <source>Last published on %1.</source>
        <translation>Zuletzt veröffentlicht am %1.</translation>
    </message>
</context>
<context>
    <name>ui::publish::PagePreview</name>
    <message>
        <source>The page, as others see it</source>
        <translation>Die Seite, wie andere sie sehen</translation>
    </message>
    <message>
        <source>The chart of the page</source>
        <translation>Die Grafik der Seite</translation>
    </message>
    <message>
        <source>%1 on the page.</source>
        <translation>%1 auf der Seite.</translation>
    </message>
    <message>
        <source>In all: %1.</source>
        <translation>Insgesamt: %1.</translation>
    </message>
    <message>
        <source>Frames behind a number</source>
        <translation>Bilder hinter einer Zahl</translation>
    </message>
</context>
<context>
    <name>ui::publish::PointList</name>
    <message>
        <source>Goes to %1, where it is settled</source>
        <translation>Geht zu %1, wo es geklärt wird</translation>
    </message>
</context>
<context>
    <name>ui::publish::PublishScreen</name>
    <message>
        <source>Change…</source>
        <translation>Ändern…</translation>
    </message>
    <message>
        <source>Open the page</source>
        <translation>Seite öffnen</translation>
    </message>
    <message>
        <source>Show the folder</source>
        <translation>Ordner zeigen</translation>
    </message>
    <message>
        <source>Hide the na&amp;mes of the hitters</source>
        <translation>&amp;Namen der Spieler verbergen</translation>
    </message>
    <message>
        <source>Chooses another folder</source>
        <translation>Wählt einen anderen Ordner</translation>
    </message>
    <message>
        <source>Shows the published page in the browser</source>
        <translation>Zeigt die veröffentlichte Seite im Browser</translation>
    </message>
    <message>
        <source>Shows the published files</source>
        <translation>Zeigt die veröffentlichten Dateien</translation>
    </message>
    <message>
        <source>Before others see it</source>
        <translation>Bevor andere es sehen</translation>
    </message>
    <message>
        <source>The page says: it describes the specimens and hitters that were filmed. Whether an implement is legal to play with is for the governing body to say.</source>
        <translation>Die Seite sagt: Sie beschreibt die gefilmten Exemplare und Spieler. Ob mit einem Gerät gespielt werden darf, sagt der zuständige Verband.</translation>
    </message>
    <message>
        <source>What is written</source>
        <translation>Was geschrieben wird</translation>
    </message>
    <message>
        <source>A page for any browser</source>
        <translation>Eine Seite für jeden Browser</translation>
    </message>
    <message>
        <source>table, chart, frame strips, method</source>
        <translation>Tabelle, Grafik, Bildstreifen, Methode</translation>
    </message>
    <message>
        <source>The same on paper</source>
        <translation>Dasselbe auf Papier</translation>
    </message>
    <message>
        <source>one PDF</source>
        <translation>ein PDF</translation>
    </message>
    <message>
        <source>Tables and a workbook</source>
        <translation>Tabellen und eine Arbeitsmappe</translation>
    </message>
    <message>
        <source>with a description of every column</source>
        <translation>mit einer Beschreibung jeder Spalte</translation>
    </message>
    <message>
        <source>Every figure</source>
        <translation>Jede Abbildung</translation>
    </message>
    <message>
        <source>as SVG and PNG</source>
        <translation>als SVG und PNG</translation>
    </message>
    <message>
        <source>H1, H2 … stand for them in every file</source>
        <translation>In jeder Datei stehen H1, H2 … für sie</translation>
    </message>
    <message>
        <source>Files in the folder that Turnmark did not write are left alone.</source>
        <translation>Dateien im Ordner, die Turnmark nicht geschrieben hat, bleiben unberührt.</translation>
    </message>
    <message>
        <source>Author and terms</source>
        <translation>Autor und Bedingungen</translation>
    </message>
    <message>
        <source>A&amp;uthor</source>
        <translation>A&amp;utor</translation>
    </message>
    <message>
        <source>who answers for the findings</source>
        <translation>wer für die Ergebnisse einsteht</translation>
    </message>
    <message>
        <source>Stands on the page and in the tables</source>
        <translation>Steht auf der Seite und in den Tabellen</translation>
    </message>
    <message>
        <source>&amp;Licence</source>
        <translation>L&amp;izenz</translation>
    </message>
    <message>
        <source>for example: CC BY 4.0</source>
        <translation>zum Beispiel: CC BY 4.0</translation>
    </message>
    <message>
        <source>On what terms others may use the files</source>
        <translation>Zu welchen Bedingungen andere die Dateien nutzen dürfen</translation>
    </message>
    <message>
        <source>&amp;Cite as</source>
        <translation>&amp;Zitieren als</translation>
    </message>
    <message>
        <source>for example: Club tests, May 2026</source>
        <translation>zum Beispiel: Vereinstests, Mai 2026</translation>
    </message>
    <message>
        <source>How others name this publication</source>
        <translation>Wie andere diese Veröffentlichung nennen</translation>
    </message>
    <message>
        <source>Nothing to publish yet</source>
        <translation>Noch nichts zu veröffentlichen</translation>
    </message>
    <message>
        <source>Keep the first shots in Reading; every kept shot enters the findings at once.</source>
        <translation>Behalten Sie die ersten Schläge unter Ablesen; jeder behaltene Schlag geht sofort in die Ergebnisse ein.</translation>
    </message>
    <message>
        <source>Publish into a folder…</source>
        <translation>In Ordner veröffentlichen…</translation>
    </message>
    <message>
        <source>Publish here</source>
        <translation>Hier veröffentlichen</translation>
    </message>
    <message>
        <source>Asks for the folder (Ctrl+P)</source>
        <translation>Fragt nach dem Ordner (Strg+P)</translation>
    </message>
    <message>
        <source>Writes into %1 (Ctrl+P)</source>
        <translation>Schreibt in %1 (Strg+P)</translation>
    </message>
    <message>
        <source>Folder to publish into</source>
        <translation>Ordner für die Veröffentlichung</translation>
    </message>
    <message>
        <source>Publishing</source>
        <translation>Wird veröffentlicht</translation>
    </message>
    <message>
        <source>No program of this computer opens %1. Open it by hand.</source>
        <translation>Kein Programm dieses Rechners öffnet %1. Öffnen Sie es von Hand.</translation>
    </message>
    <message>
        <source>The first kept shot gives the page something to say.</source>
        <translation>Mit dem ersten behaltenen Schlag hat die Seite etwas zu sagen.</translation>
    </message>
    <message>
        <source>The page is being prepared.</source>
        <translation>Die Seite wird vorbereitet.</translation>
    </message>
    <message>
        <source>Preparing the page</source>
        <translation>Seite wird vorbereitet</translation>
    </message>
    <message>
        <source>A slow &amp;film of each shot</source>
        <translation>Zeitlupen&amp;film je Schlag</translation>
    </message>
    <message>
        <source>MP4 with the turns counted; takes a few seconds a shot</source>
        <translation>MP4 mit gezählten Umdrehungen; dauert einige Sekunden je Schlag</translation>
    </message>
</context>
<context>
    <name>ui::reading</name>
    <message>
        <source>95 %: %1 to %2 rpm</source>
        <translation>95 %: %1 bis %2 U/min</translation>
    </message>
    <message>
        <source>from the pictures</source>
        <translation>aus den Bildern</translation>
    </message>
    <message>
        <source>from your marks</source>
        <translation>nach Ihren Marken</translation>
    </message>
    <message>
        <source>Kept, %1</source>
        <translation>Behalten, %1</translation>
    </message>
    <message>
        <source>%1, not kept yet</source>
        <translation>%1, noch nicht behalten</translation>
    </message>
    <message>
        <source>Being read…</source>
        <translation>Wird abgelesen…</translation>
    </message>
    <message>
        <source>No reading</source>
        <translation>Keine Ablesung</translation>
    </message>
    <message>
        <source>The pictures are being read.</source>
        <translation>Die Bilder werden abgelesen.</translation>
    </message>
    <message>
        <source>Enter the rate</source>
        <translation>Rate angeben</translation>
    </message>
    <message>
        <source>Point at the ball</source>
        <translation>Auf den Ball zeigen</translation>
    </message>
    <message>
        <source>Use %1 for %2</source>
        <translation>%1 für %2 verwenden</translation>
    </message>
    <message>
        <source>Settle the clock</source>
        <translation>Uhr klären</translation>
    </message>
    <message>
        <source>Lay out %1 rpm</source>
        <translation>%1 U/min auslegen</translation>
    </message>
    <message>
        <source>Enter the readout</source>
        <translation>Auslesezeit angeben</translation>
    </message>
    <message>
        <source>Enter the field of view</source>
        <translation>Bildwinkel angeben</translation>
    </message>
    <message>
        <source>The two agree.</source>
        <translation>Beide stimmen überein.</translation>
    </message>
    <message>
        <source>The pictures give %1 rpm %2 than the marks: %3 times the uncertainty of the difference. Look at both again.</source>
        <translation>Die Bilder ergeben %1 U/min %2 als die Marken: das %3-fache der Unsicherheit des Unterschieds. Sehen Sie sich beide noch einmal an.</translation>
    </message>
    <message>
        <source>more</source>
        <translation>mehr</translation>
    </message>
    <message>
        <source>less</source>
        <translation>weniger</translation>
    </message>
    <message>
        <source>If the last return were turn %1, it would be %2 rpm.</source>
        <translation>Wäre die letzte Wiederkehr Umdrehung %1, wären es %2 U/min.</translation>
    </message>
    <message>
        <source>The marking looks the same after 1/%1 of a turn: it could be %2 rpm.</source>
        <translation>Die Markierung sieht nach 1/%1 Umdrehung gleich aus: Es könnten %2 U/min sein.</translation>
    </message>
    <message>
        <source>%1 in the opposite direction</source>
        <translation>%1 in der anderen Richtung</translation>
    </message>
    <message>
        <source>These rates would give the same pictures: %1 rpm.</source>
        <translation>Diese Drehzahlen ergäben dieselben Bilder: %1 U/min.</translation>
    </message>
    <message>
        <source>, </source>
        <translation>, </translation>
    </message>
    <message>
        <source>Not assessed: %1.</source>
        <translation>Nicht beurteilt: %1.</translation>
    </message>
    <message>
        <source>The mark turns by %1° during an exposure.</source>
        <translation>Die Marke dreht sich während einer Belichtung um %1°.</translation>
    </message>
    <message>
        <source>Go to the first clear frame after the strike and press S: the start.</source>
        <translation>Gehen Sie zum ersten klaren Bild nach dem Treffmoment und drücken Sie S: der Start.</translation>
    </message>
    <message>
        <source>Read the orientation in at least one more frame, or press S and R for start and return.</source>
        <translation>Lesen Sie die Stellung in mindestens einem weiteren Bild ab, oder drücken Sie S und R für Start und Wiederkehr.</translation>
    </message>
    <message>
        <source>Now go to the frame where the mark is back in the orientation of the start and press R. The first column of the turn grid shows the candidates.</source>
        <translation>Gehen Sie jetzt zu dem Bild, in dem die Marke wieder in der Stellung des Starts ist, und drücken Sie R. Die erste Spalte des Umdrehungsrasters zeigt, welche in Frage kommen.</translation>
    </message>
    <message>
        <source>Start</source>
        <translation>Start</translation>
    </message>
    <message>
        <source>Returns</source>
        <translation>Wiederkehren</translation>
    </message>
    <message>
        <source>Angles</source>
        <translation>Winkel</translation>
    </message>
    <message>
        <source>in %1</source>
        <translation>in %1</translation>
    </message>
    <message>
        <source>Turns</source>
        <translation>Umdrehungen</translation>
    </message>
    <message>
        <source>Frames a turn</source>
        <translation>Bilder je Umdrehung</translation>
    </message>
    <message>
        <source>As marked</source>
        <translation>Wie markiert</translation>
    </message>
    <message>
        <source>%1 rpm</source>
        <translation>%1 U/min</translation>
    </message>
    <message>
        <source>%1 (%2)</source>
        <translation>%1 (%2)</translation>
    </message>
    <message>
        <source>%1–%2</source>
        <translation>%1–%2</translation>
    </message>
    <message>
        <source>%1 (turn %2)</source>
        <translation>%1 (Umdrehung %2)</translation>
    </message>
    <message>
        <source>%1, ± %2%3</source>
        <translation>%1, ± %2%3</translation>
    </message>
    <message>
        <source>%1, u %2%3</source>
        <translation>%1, u %2%3</translation>
    </message>
    <message>
        <source>%1, ball at %2 m/s</source>
        <translation>%1, Ball mit %2 m/s</translation>
    </message>
    <message>
        <source>to read</source>
        <translation>noch abzulesen</translation>
    </message>
    <message>
        <source>to read, marked</source>
        <translation>noch abzulesen, markiert</translation>
    </message>
    <message>
        <source>kept</source>
        <translation>behalten</translation>
    </message>
    <message>
        <source>doubtful</source>
        <translation>zweifelhaft</translation>
    </message>
    <message>
        <source>set aside</source>
        <translation>zurückgestellt</translation>
    </message>
    <message>
        <source>This shot is no longer in the project. Choose another one.</source>
        <translation>Dieser Schlag ist nicht mehr im Projekt. Wählen Sie einen anderen.</translation>
    </message>
    <message>
        <source>Shot %1</source>
        <translation>Schlag %1</translation>
    </message>
    <message>
        <source>Names hidden</source>
        <translation>Namen verborgen</translation>
    </message>
    <message>
        <source>Blind %1 of %2</source>
        <translation>Blind %1 von %2</translation>
    </message>
    <message>
        <source>That was the last shot. Every shot is decided: go on in Doubts or Findings.</source>
        <translation>Das war der letzte Schlag. Jeder Schlag ist entschieden: weiter unter Zweifel oder Ergebnisse.</translation>
    </message>
    <message>
        <source>That was the last shot of the list. Still open: %1.</source>
        <translation>Das war der letzte Schlag der Liste. Noch offen: %1.</translation>
    </message>
    <message>
        <source>%1 to read</source>
        <translation>%1 noch abzulesen</translation>
    </message>
    <message>
        <source>%1 marked as doubtful</source>
        <translation>%1 als zweifelhaft gekennzeichnet</translation>
    </message>
    <message>
        <source>%1 not assigned</source>
        <translation>%1 nicht zugeordnet</translation>
    </message>
    <message>
        <source>%1 without a capture rate</source>
        <translation>%1 ohne Aufnahmerate</translation>
    </message>
    <message>
        <source>Frame %1</source>
        <translation>Bild %1</translation>
    </message>
    <message>
        <source>strike</source>
        <translation>Treffmoment</translation>
    </message>
    <message>
        <source>start</source>
        <translation>Start</translation>
    </message>
    <message>
        <source>return, turn %1</source>
        <translation>Wiederkehr, Umdrehung %1</translation>
    </message>
    <message>
        <source>return</source>
        <translation>Wiederkehr</translation>
    </message>
    <message>
        <source>angle %1°</source>
        <translation>Winkel %1°</translation>
    </message>
    <message>
        <source>%1 after the strike</source>
        <translation>%1 nach dem Treffmoment</translation>
    </message>
    <message>
        <source>%1 after the first frame</source>
        <translation>%1 nach dem ersten Bild</translation>
    </message>
    <message>
        <source>nobody has shown where the ball is</source>
        <translation>niemand hat gezeigt, wo der Ball ist</translation>
    </message>
    <message>
        <source>ball at %1, %2, radius %3 px</source>
        <translation>Ball bei %1, %2, Radius %3 px</translation>
    </message>
    <message>
        <source>capture rate not settled</source>
        <translation>Aufnahmerate nicht geklärt</translation>
    </message>
    <message>
        <source>%1 frames/s, from the time stamps (%2)</source>
        <translation>%1 Bilder/s, nach Zeitstempeln (%2)</translation>
    </message>
    <message>
        <source>%1 frames/s, slow motion ×%2 (%3)</source>
        <translation>%1 Bilder/s, Zeitlupe ×%2 (%3)</translation>
    </message>
    <message>
        <source>%1 frames/s, by counting frames (%2)</source>
        <translation>%1 Bilder/s, Bilder gezählt (%2)</translation>
    </message>
</context>
<context>
    <name>ui::reading::BallPictures</name>
    <message>
        <source>No picture of this frame is kept.</source>
        <translation>Von diesem Bild ist nichts aufbewahrt.</translation>
    </message>
</context>
<context>
    <name>ui::reading::BallView</name>
    <message>
        <source>Ball view</source>
        <translation>Ballansicht</translation>
    </message>
    <message>
        <source>Here the ball stands still and only turns, once you have shown where it is in the scene.</source>
        <translation>Hier steht der Ball still und dreht sich nur, sobald Sie in der Szene gezeigt haben, wo er ist.</translation>
    </message>
    <message>
        <source>frame %1</source>
        <translation>Bild %1</translation>
    </message>
    <message>
        <source>orientation %1°</source>
        <translation>Stellung %1°</translation>
    </message>
    <message>
        <source>drag the hand to the mark</source>
        <translation>Zeiger auf die Marke ziehen</translation>
    </message>
</context>
<context>
    <name>ui::reading::BudgetTable</name>
    <message>
        <source>Uncertainty budget</source>
        <translation>Unsicherheitsbudget</translation>
    </message>
    <message>
        <source>Contribution</source>
        <translation>Beitrag</translation>
    </message>
    <message>
        <source>u / %1</source>
        <translation>u / %1</translation>
    </message>
    <message>
        <source>Share / %</source>
        <translation>Anteil / %</translation>
    </message>
    <message>
        <source>Combined</source>
        <translation>Zusammen</translation>
    </message>
    <message>
        <source>%1
value %2 %3, %4
sensitivity %5 %6 per %3</source>
        <translation>%1
Wert %2 %3, %4
Empfindlichkeit %5 %6 je %3</translation>
    </message>
</context>
<context>
    <name>ui::reading::CompareView</name>
    <message>
        <source>Start against return</source>
        <translation>Start gegen Wiederkehr</translation>
    </message>
    <message>
        <source>start · frame %1</source>
        <translation>Start · Bild %1</translation>
    </message>
    <message>
        <source>return · frame %1</source>
        <translation>Wiederkehr · Bild %1</translation>
    </message>
    <message>
        <source>current · frame %1</source>
        <translation>jetzt · Bild %1</translation>
    </message>
</context>
<context>
    <name>ui::reading::DiameterQuestion</name>
    <message>
        <source>Ball diameter in mm</source>
        <translation>Balldurchmesser in mm</translation>
    </message>
    <message>
        <source>mm</source>
        <translation>mm</translation>
    </message>
    <message>
        <source>Not known</source>
        <translation>Nicht bekannt</translation>
    </message>
    <message>
        <source>Nothing checks the capture rate then: a slow-motion export would go unnoticed</source>
        <translation>Dann prüft nichts die Aufnahmerate: Exportierte Zeitlupe bliebe unbemerkt</translation>
    </message>
    <message>
        <source>Ball diameter</source>
        <translation>Balldurchmesser</translation>
    </message>
    <message>
        <source>Before the first reading of this filming day: how large is the ball? With it its fall checks the capture rate. Enter uses it for the whole day.</source>
        <translation>Vor der ersten Ablesung dieses Drehtags: Wie groß ist der Ball? Damit prüft sein Fallen die Aufnahmerate. Enter verwendet es für den ganzen Tag.</translation>
    </message>
    <message>
        <source>Enter it in mm, %1 or more, or press Not known.</source>
        <translation>Geben Sie ihn in mm ein, mindestens %1, oder drücken Sie „Nicht bekannt“.</translation>
    </message>
</context>
<context>
    <name>ui::reading::EvidenceKeeper</name>
    <message>
        <source>Keeping the pictures of a shot</source>
        <translation>Bilder eines Schlags werden aufbewahrt</translation>
    </message>
</context>
<context>
    <name>ui::reading::FrameTimeLine</name>
    <message>
        <source>Frame time line</source>
        <translation>Zeitleiste der Bilder</translation>
    </message>
    <message>
        <source>Frames of the shot, in milliseconds after the strike</source>
        <translation>Bilder des Schlags, in Millisekunden nach dem Treffmoment</translation>
    </message>
    <message>
        <source>strike 0</source>
        <translation>Treffmoment 0</translation>
    </message>
    <message>
        <source>%1 ms</source>
        <translation>%1 ms</translation>
    </message>
</context>
<context>
    <name>ui::reading::IntervalBar</name>
    <message>
        <source>Thick: 95 % interval. Thin: what the marks allow at all. Diamond: estimate.</source>
        <translation>Dick: 95-%-Intervall. Dünn: was die Marken überhaupt zulassen. Raute: Schätzwert.</translation>
    </message>
    <message>
        <source>%1 rpm</source>
        <translation>%1 U/min</translation>
    </message>
    <message>
        <source>noticeable step %1 rpm</source>
        <translation>merklich: %1 U/min</translation>
    </message>
    <message>
        <source>Spin rate and its interval</source>
        <translation>Drehzahl und ihr Intervall</translation>
    </message>
    <message>
        <source>%1 to %2 rpm</source>
        <translation>%1 bis %2 U/min</translation>
    </message>
    <message>
        <source>Spin rate</source>
        <translation>Drehzahl</translation>
    </message>
    <message>
        <source>95 % interval</source>
        <translation>95-%-Intervall</translation>
    </message>
    <message>
        <source>What the marks allow at all</source>
        <translation>Was die Marken überhaupt zulassen</translation>
    </message>
    <message>
        <source>Noticeable step</source>
        <translation>Merklicher Unterschied</translation>
    </message>
</context>
<context>
    <name>ui::reading::KeyList</name>
    <message>
        <source>1 … 9</source>
        <translation>1 … 9</translation>
    </message>
</context>
<context>
    <name>ui::reading::MarkBar</name>
    <message>
        <source>How much slower than real time the replay is</source>
        <translation>Wievielmal langsamer als in Wirklichkeit die Wiederholung läuft</translation>
    </message>
    <message>
        <source>Slowness of the replay</source>
        <translation>Verlangsamung der Wiederholung</translation>
    </message>
    <message>
        <source>%1×</source>
        <translation>%1×</translation>
    </message>
</context>
<context>
    <name>ui::reading::MethodRow</name>
    <message>
        <source>From the pictures</source>
        <translation>Aus den Bildern</translation>
    </message>
    <message>
        <source>From your marks</source>
        <translation>Nach Ihren Marken</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
</context>
<context>
    <name>ui::reading::MethodRows</name>
    <message>
        <source>reading…</source>
        <translation>wird abgelesen…</translation>
    </message>
    <message>
        <source>no reading</source>
        <translation>keine Ablesung</translation>
    </message>
</context>
<context>
    <name>ui::reading::OtherShot</name>
    <message>
        <source>Turn grid of the other shot</source>
        <translation>Umdrehungsraster des anderen Schlags</translation>
    </message>
    <message>
        <source>Close</source>
        <translation>Schließen</translation>
    </message>
    <message>
        <source>Shows the shot under review alone (Esc)</source>
        <translation>Zeigt den Schlag in Arbeit allein (Esc)</translation>
    </message>
    <message>
        <source>%1 rpm</source>
        <translation>%1 U/min</translation>
    </message>
    <message>
        <source>Beside: %1 · %2</source>
        <translation>Daneben: %1 · %2</translation>
    </message>
</context>
<context>
    <name>ui::reading::PictureReader</name>
    <message>
        <source>Reading a shot from its pictures</source>
        <translation>Ein Schlag wird aus den Bildern abgelesen</translation>
    </message>
    <message>
        <source>Letting go of pictures</source>
        <translation>Bilder werden freigegeben</translation>
    </message>
</context>
<context>
    <name>ui::reading::ReadingActions</name>
    <message>
        <source>Previous frame</source>
        <translation>Voriges Bild</translation>
    </message>
    <message>
        <source>One frame back</source>
        <translation>Ein Bild zurück</translation>
    </message>
    <message>
        <source>Next frame</source>
        <translation>Nächstes Bild</translation>
    </message>
    <message>
        <source>One frame on</source>
        <translation>Ein Bild weiter</translation>
    </message>
    <message>
        <source>Turn back</source>
        <translation>Umdrehung zurück</translation>
    </message>
    <message>
        <source>One turn back at the present row length</source>
        <translation>Eine Umdrehung zurück, bei jetziger Zeilenlänge</translation>
    </message>
    <message>
        <source>Turn on</source>
        <translation>Umdrehung weiter</translation>
    </message>
    <message>
        <source>One turn on at the present row length</source>
        <translation>Eine Umdrehung weiter, bei jetziger Zeilenlänge</translation>
    </message>
    <message>
        <source>Previous shot</source>
        <translation>Voriger Schlag</translation>
    </message>
    <message>
        <source>Open the previous shot</source>
        <translation>Den vorigen Schlag öffnen</translation>
    </message>
    <message>
        <source>Next shot</source>
        <translation>Nächster Schlag</translation>
    </message>
    <message>
        <source>Open the next shot</source>
        <translation>Den nächsten Schlag öffnen</translation>
    </message>
    <message>
        <source>Next to read</source>
        <translation>Nächster abzulesender</translation>
    </message>
    <message>
        <source>Open the next shot to read</source>
        <translation>Den nächsten noch abzulesenden Schlag öffnen</translation>
    </message>
    <message>
        <source>Next doubtful</source>
        <translation>Nächster zweifelhafter</translation>
    </message>
    <message>
        <source>Open the next shot that is marked as doubtful</source>
        <translation>Den nächsten als zweifelhaft gekennzeichneten Schlag öffnen</translation>
    </message>
    <message>
        <source>Start</source>
        <translation>Start</translation>
    </message>
    <message>
        <source>This frame is the start; again: it is not</source>
        <translation>Dieses Bild ist der Start; noch einmal: Es ist es nicht</translation>
    </message>
    <message>
        <source>Return</source>
        <translation>Wiederkehr</translation>
    </message>
    <message>
        <source>In this frame the mark is back; again: it is not</source>
        <translation>In diesem Bild ist die Marke wieder da; noch einmal: Sie ist es nicht</translation>
    </message>
    <message>
        <source>Bracket</source>
        <translation>Dazwischen</translation>
    </message>
    <message>
        <source>The mark is back between this frame and the next</source>
        <translation>Die Marke ist zwischen diesem und dem nächsten Bild wieder da</translation>
    </message>
    <message>
        <source>Turns %1</source>
        <translation>Umdrehungen %1</translation>
    </message>
    <message>
        <source>Turn count of this return, or of the last one</source>
        <translation>Anzahl der Umdrehungen bis zu dieser Wiederkehr oder der letzten</translation>
    </message>
    <message>
        <source>Dial</source>
        <translation>Scheibe</translation>
    </message>
    <message>
        <source>Lay the dial of orientation over the ball</source>
        <translation>Die Stellungsscheibe über den Ball legen</translation>
    </message>
    <message>
        <source>Hand counter-clockwise</source>
        <translation>Zeiger links herum</translation>
    </message>
    <message>
        <source>Turn the dial&apos;s hand by 1° counter-clockwise</source>
        <translation>Den Zeiger der Scheibe um 1° gegen den Uhrzeigersinn drehen</translation>
    </message>
    <message>
        <source>Hand clockwise</source>
        <translation>Zeiger rechts herum</translation>
    </message>
    <message>
        <source>Turn the dial&apos;s hand by 1° clockwise</source>
        <translation>Den Zeiger der Scheibe um 1° im Uhrzeigersinn drehen</translation>
    </message>
    <message>
        <source>Compare</source>
        <translation>Vergleichen</translation>
    </message>
    <message>
        <source>Start and return side by side; again: blink; again: scene</source>
        <translation>Start und Wiederkehr nebeneinander; noch einmal: Blinken; noch einmal: Szene</translation>
    </message>
    <message>
        <source>Longer row</source>
        <translation>Längere Zeile</translation>
    </message>
    <message>
        <source>Longer row, lower rate</source>
        <translation>Längere Zeile, kleinere Drehzahl</translation>
    </message>
    <message>
        <source>Shorter row</source>
        <translation>Kürzere Zeile</translation>
    </message>
    <message>
        <source>Shorter row, higher rate</source>
        <translation>Kürzere Zeile, größere Drehzahl</translation>
    </message>
    <message>
        <source>Longer row, coarse</source>
        <translation>Längere Zeile, grob</translation>
    </message>
    <message>
        <source>Longer row in coarse steps</source>
        <translation>Längere Zeile in groben Schritten</translation>
    </message>
    <message>
        <source>Shorter row, coarse</source>
        <translation>Kürzere Zeile, grob</translation>
    </message>
    <message>
        <source>Shorter row in coarse steps</source>
        <translation>Kürzere Zeile in groben Schritten</translation>
    </message>
    <message>
        <source>From reading</source>
        <translation>Aus der Ablesung</translation>
    </message>
    <message>
        <source>Row length back to the rate of the marks, or of the pictures</source>
        <translation>Zeilenlänge zurück auf die Drehzahl der Marken oder der Bilder</translation>
    </message>
    <message>
        <source>Hold the ball still</source>
        <translation>Ball anhalten</translation>
    </message>
    <message>
        <source>Turn every picture back by its phase: at the right rate all look alike</source>
        <translation>Jedes Bild um seine Phase zurückdrehen: Bei der richtigen Drehzahl sehen alle gleich aus</translation>
    </message>
    <message>
        <source>Replay</source>
        <translation>Wiederholung</translation>
    </message>
    <message>
        <source>Replay the reading in a loop</source>
        <translation>Die Ablesung in einer Schleife wiederholen</translation>
    </message>
    <message>
        <source>Read ahead</source>
        <translation>Vorauslesen</translation>
    </message>
    <message>
        <source>Read the pictures of all shots to read in the background, then those of the kept ones for Doubts; goes on when the project is opened again</source>
        <translation>Im Hintergrund die Bilder aller noch abzulesenden Schläge ablesen, dann für Zweifel die der behaltenen; geht weiter, wenn das Projekt wieder geöffnet wird</translation>
    </message>
    <message>
        <source>Hide names</source>
        <translation>Namen verbergen</translation>
    </message>
    <message>
        <source>Read blind: implement, hitter and clip are hidden, and the shots come in an order that tells nothing of them; goes on when the project is opened again</source>
        <translation>Blind ablesen: Gerät, Spieler und Clip sind verborgen, und die Reihenfolge der Schläge verrät nichts; geht weiter, wenn das Projekt wieder geöffnet wird</translation>
    </message>
    <message>
        <source>Keys</source>
        <translation>Tasten</translation>
    </message>
    <message>
        <source>Show the keys of this screen</source>
        <translation>Die Tasten dieser Ansicht zeigen</translation>
    </message>
    <message>
        <source>Keep, next</source>
        <translation>Behalten, weiter</translation>
    </message>
    <message>
        <source>Keep this reading and open the next shot</source>
        <translation>Diese Ablesung behalten und den nächsten Schlag öffnen</translation>
    </message>
    <message>
        <source>The other reading</source>
        <translation>Die andere Ablesung</translation>
    </message>
    <message>
        <source>Keep would keep the other reading: from the pictures, or from your marks</source>
        <translation>Behalten nähme die andere Ablesung: aus den Bildern oder nach Ihren Marken</translation>
    </message>
    <message>
        <source>Set aside…</source>
        <translation>Zurückstellen…</translation>
    </message>
    <message>
        <source>Leave this shot out of the summary, with a reason</source>
        <translation>Diesen Schlag aus der Zusammenfassung lassen, mit einer Begründung</translation>
    </message>
    <message>
        <source>Doubtful</source>
        <translation>Zweifelhaft</translation>
    </message>
    <message>
        <source>This shot deserves a second look; again: it does not</source>
        <translation>Dieser Schlag verdient einen zweiten Blick; noch einmal: doch nicht</translation>
    </message>
    <message>
        <source>Show beside</source>
        <translation>Daneben zeigen</translation>
    </message>
    <message>
        <source>The turn grid of the other chosen shot, or of the one before, beside this one, with one time axis; again: this shot alone</source>
        <translation>Das Umdrehungsraster des anderen gewählten Schlags oder des vorigen neben diesem, auf einer Zeitachse; noch einmal: dieser Schlag allein</translation>
    </message>
</context>
<context>
    <name>ui::reading::ReadingCard</name>
    <message>
        <source>rpm</source>
        <translation>U/min</translation>
    </message>
    <message>
        <source>Uncertainty budget</source>
        <translation>Unsicherheitsbudget</translation>
    </message>
    <message>
        <source>Show what the uncertainty consists of</source>
        <translation>Zeigen, woraus die Unsicherheit besteht</translation>
    </message>
    <message>
        <source>Ball unrolled</source>
        <translation>Ball abgerollt</translation>
    </message>
    <message>
        <source>Show the surface of the ball, unrolled about its axis</source>
        <translation>Die Oberfläche des Balls zeigen, um seine Achse abgerollt</translation>
    </message>
    <message>
        <source>Why? For example: mishit</source>
        <translation>Warum? Zum Beispiel: nicht sauber getroffen</translation>
    </message>
    <message>
        <source>Enter sets the shot aside, Escape leaves it.</source>
        <translation>Enter stellt den Schlag zurück, Esc lässt ihn.</translation>
    </message>
    <message>
        <source>Reopen</source>
        <translation>Wieder öffnen</translation>
    </message>
    <message>
        <source>Makes this a shot to read again</source>
        <translation>Macht daraus wieder einen Schlag zum Ablesen</translation>
    </message>
    <message>
        <source>Implement and hitter, and what is known of the shot, are hidden.</source>
        <translation>Gerät und Spieler und was man vom Schlag weiß, sind verborgen.</translation>
    </message>
    <message>
        <source>Implement and hitter appear when Hide names is off.</source>
        <translation>Gerät und Spieler erscheinen, wenn „Namen verbergen“ aus ist.</translation>
    </message>
    <message>
        <source>Not assigned: choose implement and hitter in Footage.</source>
        <translation>Nicht zugeordnet: Wählen Sie unter Aufnahmen Gerät und Spieler.</translation>
    </message>
    <message>
        <source>No shot</source>
        <translation>Kein Schlag</translation>
    </message>
    <message>
        <source>Choose a shot in the list, or add clips in Footage.</source>
        <translation>Wählen Sie einen Schlag in der Liste oder fügen Sie unter Aufnahmen Clips hinzu.</translation>
    </message>
    <message>
        <source>%1 of %2</source>
        <translation>%1 von %2</translation>
    </message>
    <message>
        <source>%1. Now read differently: keep again</source>
        <translation>%1. Jetzt anders abgelesen: neu behalten</translation>
    </message>
    <message>
        <source>Set aside: %1</source>
        <translation>Zurückgestellt: %1</translation>
    </message>
    <message>
        <source>Next shot to read</source>
        <translation>Nächster abzulesender</translation>
    </message>
    <message>
        <source>Keep %1 rpm, next</source>
        <translation>%1 U/min behalten, weiter</translation>
    </message>
    <message>
        <source>Keep, next</source>
        <translation>Behalten, weiter</translation>
    </message>
    <message>
        <source>%1 rpm</source>
        <translation>%1 U/min</translation>
    </message>
    <message>
        <source>Go to a frame in which the ball is clear, and click it in the scene. Its path is looked for from there.</source>
        <translation>Gehen Sie zu einem Bild, in dem der Ball klar ist, und klicken Sie ihn in der Szene an. Von dort wird seine Bahn gesucht.</translation>
    </message>
    <message>
        <source>One row is one turn at %1 rpm now. Where the columns agree the rate is right: mark the start with S and the return with R.</source>
        <translation>Eine Zeile ist jetzt eine Umdrehung bei %1 U/min. Wo die Spalten übereinstimmen, ist die Drehzahl richtig: Markieren Sie den Start mit S und die Wiederkehr mit R.</translation>
    </message>
    <message>
        <source>Go to Findings</source>
        <translation>Zu den Ergebnissen</translation>
    </message>
    <message>
        <source>Every shot is decided</source>
        <translation>Jeder Schlag ist entschieden</translation>
    </message>
</context>
<context>
    <name>ui::reading::ReadingDesk</name>
    <message>
        <source>This second reading was taken back.</source>
        <translation>Diese Zweitablesung wurde zurückgenommen.</translation>
    </message>
    <message>
        <source>A return comes after the start (frame %1). Step on, or move the start here with S.</source>
        <translation>Eine Wiederkehr kommt nach dem Start (Bild %1). Gehen Sie weiter, oder setzen Sie den Start mit S hierher.</translation>
    </message>
    <message>
        <source>First mark the start with S: the frame whose orientation the returns repeat.</source>
        <translation>Markieren Sie zuerst den Start mit S: das Bild, dessen Stellung wiederkehrt.</translation>
    </message>
    <message>
        <source>A bracket lies between two frames after the start. Mark the start with S, then step to the frame before the orientation is back.</source>
        <translation>„Dazwischen“ liegt zwischen zwei Bildern nach dem Start. Markieren Sie den Start mit S, dann gehen Sie zu dem Bild, bevor die Stellung wieder da ist.</translation>
    </message>
    <message>
        <source>This shot was kept with its ball here. A second reading does not move it.</source>
        <translation>Dieser Schlag wurde mit seinem Ball hier behalten. Eine Zweitablesung verschiebt ihn nicht.</translation>
    </message>
    <message>
        <source>This shot is kept, and a click does not change it. To move the ball, press Reopen first.</source>
        <translation>Dieser Schlag ist behalten, und ein Klick ändert ihn nicht. Um den Ball zu verschieben, drücken Sie zuerst „Wieder öffnen“.</translation>
    </message>
    <message>
        <source>This is far from the path of the ball, so nothing was changed. If the ball is there, click it again.</source>
        <translation>Das ist weit von der Bahn des Balls, und nichts wurde geändert. Ist der Ball dort, klicken Sie noch einmal.</translation>
    </message>
    <message>
        <source>Say why: the reason stays with the shot and is published with it.</source>
        <translation>Sagen Sie warum: Die Begründung bleibt beim Schlag und wird mit ihm veröffentlicht.</translation>
    </message>
</context>
<context>
    <name>ui::reading::ReadingScreen</name>
    <message>
        <source>Reading of a shot</source>
        <translation>Ablesen eines Schlags</translation>
    </message>
    <message>
        <source>The pictures are read with the ball&apos;s diameter now. Press Enter when the number is there.</source>
        <translation>Die Bilder werden jetzt mit dem Balldurchmesser abgelesen. Drücken Sie Enter, wenn die Zahl da ist.</translation>
    </message>
    <message>
        <source>frame %1 · %2 · %3</source>
        <translation>Bild %1 · %2 · %3</translation>
    </message>
    <message>
        <source>%1 %2 rpm by the pictures</source>
        <translation>%1 %2 U/min aus den Bildern</translation>
    </message>
    <message>
        <source>%1 %2 rpm</source>
        <translation>%1 %2 U/min</translation>
    </message>
    <message>
        <source>Ticks in the grid show where the mark would be back: %1.</source>
        <translation>Striche im Raster zeigen, wo die Marke wieder da wäre: %1.</translation>
    </message>
    <message>
        <source>In doubt: %1 %2 C: side by side, blinking, or the scene. Ctrl+4 goes back to decide.</source>
        <translation>Zweifel: %1 %2 C: nebeneinander, blinkend oder die Szene. Strg+4 geht zurück zum Entscheiden.</translation>
    </message>
    <message>
        <source>Second reading, %1 to go: names, earlier marks and numbers are hidden. Mark the start and the returns; Enter keeps the reading and shows the next one, Esc leaves. It counts only after &quot;Use this reading&quot; in Doubts.</source>
        <translation>Zweitablesung, noch %1: Namen, frühere Marken und Zahlen sind verborgen. Markieren Sie den Start und die Wiederkehren; Enter behält die Ablesung und zeigt die nächste, Esc verlässt. Sie zählt erst nach „Diese Ablesung verwenden“ unter Zweifel.</translation>
    </message>
    <message>
        <source>No shots yet</source>
        <translation>Noch keine Schläge</translation>
    </message>
    <message>
        <source>Add the clips in Footage; the strikes in them are found by sound and movement.</source>
        <translation>Fügen Sie unter Aufnahmen die Clips hinzu; die Treffmomente darin werden am Ton und an der Bewegung erkannt.</translation>
    </message>
</context>
<context>
    <name>ui::reading::SceneView</name>
    <message>
        <source>Scene</source>
        <translation>Szene</translation>
    </message>
    <message>
        <source>The clip is not there. You see the pictures that are kept in the project.</source>
        <translation>Der Clip ist nicht da. Sie sehen die Bilder, die im Projekt aufbewahrt sind.</translation>
    </message>
    <message>
        <source>The clip %1 is not there. You see the pictures that are kept in the project.</source>
        <translation>Der Clip %1 ist nicht da. Sie sehen die Bilder, die im Projekt aufbewahrt sind.</translation>
    </message>
    <message>
        <source>Show where the ball is: press on its centre and drag to its edge. Do the same at the end of the flight, and in between where the ring leaves the ball.</source>
        <translation>Zeigen Sie, wo der Ball ist: In seiner Mitte drücken und bis zum Rand ziehen. Tun Sie dasselbe am Ende des Flugs, und dazwischen dort, wo der Ring den Ball verlässt.</translation>
    </message>
    <message>
        <source>Click on the ball to show where it is. With the keyboard here: arrow keys move a ring (Shift: finely), + and − change its size, Enter sets the ball, Esc ends.</source>
        <translation>Klicken Sie auf den Ball, um zu zeigen, wo er ist. Mit der Tastatur hier: Pfeiltasten verschieben einen Ring (Umschalt: fein), + und − ändern seine Größe, Enter setzt den Ball, Esc beendet.</translation>
    </message>
    <message>
        <source>This shot is a frame count from a table: there are no pictures to show.</source>
        <translation>Dieser Schlag ist eine Bildzählung aus einer Tabelle: Es gibt keine Bilder zu zeigen.</translation>
    </message>
</context>
<context>
    <name>ui::reading::ShotBatch</name>
    <message>
        <source>Keep where both readings agree…</source>
        <translation>Behalten, wo beide übereinstimmen…</translation>
    </message>
    <message>
        <source>Assign to</source>
        <translation>Zuordnen zu</translation>
    </message>
    <message>
        <source>Stroke</source>
        <translation>Schlagart</translation>
    </message>
    <message>
        <source>Set aside…</source>
        <translation>Zurückstellen…</translation>
    </message>
    <message>
        <source>Read again</source>
        <translation>Neu ablesen</translation>
    </message>
    <message>
        <source>As on the day</source>
        <translation>Wie am Tag</translation>
    </message>
    <message>
        <source>Topspin</source>
        <translation>Topspin</translation>
    </message>
    <message>
        <source>Backspin</source>
        <translation>Backspin</translation>
    </message>
    <message>
        <source>Not known</source>
        <translation>Nicht bekannt</translation>
    </message>
    <message>
        <source>Nobody has said how large the ball of the filming day is, so nothing checks the capture rate. Press Set up the day in Footage.</source>
        <translation>Niemand hat gesagt, wie groß der Ball des Drehtags ist, also prüft nichts die Aufnahmerate. Drücken Sie „Tag einrichten“ unter Aufnahmen.</translation>
    </message>
    <message>
        <source>Keep where both readings agree</source>
        <translation>Behalten, wo beide Ablesungen übereinstimmen</translation>
    </message>
    <message>
        <source>No shot can be kept so.</source>
        <translation>So lässt sich kein Schlag behalten.</translation>
    </message>
    <message>
        <source>%1 can be kept: marks and pictures agree.</source>
        <translation>%1: Marken und Bilder stimmen überein, so lässt es sich behalten.</translation>
    </message>
    <message>
        <source>Left out:
%1</source>
        <translation>Ausgelassen:
%1</translation>
    </message>
    <message>
        <source>Keep %1</source>
        <translation>%1 behalten</translation>
    </message>
    <message>
        <source>Set aside</source>
        <translation>Zurückstellen</translation>
    </message>
    <message>
        <source>Why are %1 set aside? For example: mishit</source>
        <translation>Warum zurückstellen: %1? Zum Beispiel: nicht sauber getroffen</translation>
    </message>
    <message>
        <source>Not done</source>
        <translation>Nicht erledigt</translation>
    </message>
</context>
<context>
    <name>ui::reading::ShotFilterBar</name>
    <message>
        <source>All</source>
        <translation>Alle</translation>
    </message>
    <message>
        <source>Every shot</source>
        <translation>Jeder Schlag</translation>
    </message>
    <message>
        <source>To read</source>
        <translation>Abzulesen</translation>
    </message>
    <message>
        <source>Shots to read</source>
        <translation>Noch abzulesende Schläge</translation>
    </message>
    <message>
        <source>Shots marked as doubtful</source>
        <translation>Als zweifelhaft gekennzeichnete Schläge</translation>
    </message>
    <message>
        <source>Find a shot</source>
        <translation>Schlag suchen</translation>
    </message>
    <message>
        <source>Words of an implement, a hitter or a clip, or a number</source>
        <translation>Wörter eines Geräts, Spielers oder Clips, oder eine Zahl</translation>
    </message>
    <message>
        <source>Show</source>
        <translation>Zeigen</translation>
    </message>
    <message>
        <source>Only some implement, hitter or clip; another order</source>
        <translation>Nur ein Gerät, Spieler oder Clip; andere Reihenfolge</translation>
    </message>
    <message>
        <source>Shows all shots again, in the order of the clips</source>
        <translation>Zeigt wieder alle Schläge, in der Reihenfolge der Clips</translation>
    </message>
    <message>
        <source>kept</source>
        <translation>behalten</translation>
    </message>
    <message>
        <source>set aside</source>
        <translation>zurückgestellt</translation>
    </message>
    <message>
        <source>in doubt</source>
        <translation>mit Zweifel</translation>
    </message>
    <message>
        <source>hitter</source>
        <translation>Spieler</translation>
    </message>
    <message>
        <source>sorted</source>
        <translation>sortiert</translation>
    </message>
    <message>
        <source>✕ %1</source>
        <translation>✕ %1</translation>
    </message>
    <message>
        <source>Kept</source>
        <translation>Behalten</translation>
    </message>
    <message>
        <source>Set aside</source>
        <translation>Zurückgestellt</translation>
    </message>
    <message>
        <source>With open doubts</source>
        <translation>Mit offenen Zweifeln</translation>
    </message>
    <message>
        <source>Any</source>
        <translation>Alle</translation>
    </message>
    <message>
        <source>Implement</source>
        <translation>Gerät</translation>
    </message>
    <message>
        <source>Hitter</source>
        <translation>Spieler</translation>
    </message>
    <message>
        <source>Clip</source>
        <translation>Clip</translation>
    </message>
    <message>
        <source>Order of the clips</source>
        <translation>Reihenfolge der Clips</translation>
    </message>
    <message>
        <source>Most spin first</source>
        <translation>Größter Drall zuerst</translation>
    </message>
    <message>
        <source>Least certain first</source>
        <translation>Unsicherste zuerst</translation>
    </message>
    <message>
        <source>By state</source>
        <translation>Nach Stand</translation>
    </message>
</context>
<context>
    <name>ui::reading::ShotGroups</name>
    <message>
        <source>%1 of %2</source>
        <translation>%1 von %2</translation>
    </message>
    <message>
        <source>%1: %2 decided</source>
        <translation>%1: %2 entschieden</translation>
    </message>
</context>
<context>
    <name>ui::reading::ShotListModel</name>
    <message>
        <source>hidden</source>
        <translation>verborgen</translation>
    </message>
    <message>
        <source>not assigned</source>
        <translation>nicht zugeordnet</translation>
    </message>
    <message>
        <source>%1
Implement, hitter and clip are hidden</source>
        <translation>%1
Gerät, Spieler und Clip sind verborgen</translation>
    </message>
    <message>
        <source>%1 · %2
shot %3 of %4%5</source>
        <translation>%1 · %2
Schlag %3 von %4%5</translation>
    </message>
    <message>
        <source>± %1</source>
        <translation>± %1</translation>
    </message>
    <message>
        <source>%1 %2, %3</source>
        <translation>%1 %2, %3</translation>
    </message>
</context>
<context>
    <name>ui::reading::ShotNote</name>
    <message>
        <source>Note</source>
        <translation>Notiz</translation>
    </message>
    <message>
        <source>about this shot</source>
        <translation>zu diesem Schlag</translation>
    </message>
    <message>
        <source>Your words about this shot: searched in the list, published with its reading. Enter keeps them.</source>
        <translation>Ihre Worte zu diesem Schlag: in der Liste gesucht, mit seiner Ablesung veröffentlicht. Enter behält sie.</translation>
    </message>
</context>
<context>
    <name>ui::reading::ShotReading</name>
    <message>
        <source>Nothing to keep yet. %1</source>
        <translation>Noch nichts zu behalten. %1</translation>
    </message>
    <message>
        <source>There is no reading from the pictures to keep.</source>
        <translation>Es gibt keine Ablesung aus den Bildern zu behalten.</translation>
    </message>
</context>
<context>
    <name>ui::reading::ShotStrip</name>
    <message>
        <source>Shots</source>
        <translation>Schläge</translation>
    </message>
    <message>
        <source>%1 of %2 read ahead</source>
        <translation>%1 von %2 vorausgelesen</translation>
    </message>
    <message>
        <source>Chosen: %1…</source>
        <translation>Gewählt: %1…</translation>
    </message>
    <message>
        <source>Keep, assign, set aside or read again what is chosen</source>
        <translation>Das Gewählte behalten, zuordnen, zurückstellen oder neu ablesen</translation>
    </message>
    <message>
        <source>Choose all shown</source>
        <translation>Alle gezeigten wählen</translation>
    </message>
    <message>
        <source>No shot matches the search.</source>
        <translation>Kein Schlag passt zur Suche.</translation>
    </message>
    <message>
        <source>No shots yet: add clips in Footage.</source>
        <translation>Noch keine Schläge: Fügen Sie unter Aufnahmen Clips hinzu.</translation>
    </message>
    <message>
        <source>Every shot is read. Findings has the summary.</source>
        <translation>Jeder Schlag ist abgelesen. Die Zusammenfassung steht in den Ergebnissen.</translation>
    </message>
    <message>
        <source>No shot is kept.</source>
        <translation>Kein Schlag ist behalten.</translation>
    </message>
    <message>
        <source>No shot is marked as doubtful.</source>
        <translation>Kein Schlag ist als zweifelhaft gekennzeichnet.</translation>
    </message>
    <message>
        <source>No shot is set aside.</source>
        <translation>Kein Schlag ist zurückgestellt.</translation>
    </message>
    <message>
        <source>No shot has an open doubt.</source>
        <translation>Kein Schlag hat einen offenen Zweifel.</translation>
    </message>
    <message>
        <source>Show beside</source>
        <translation>Daneben zeigen</translation>
    </message>
</context>
<context>
    <name>ui::reading::SurfaceMap</name>
    <message>
        <source>The ball&apos;s surface, unrolled about the spin axis. The ball turns about the points where the axis leaves it: the upper and the lower edge.</source>
        <translation>Die Oberfläche des Balls, um die Drehachse abgerollt. Der Ball dreht sich um die Punkte, an denen die Achse austritt: den oberen und den unteren Rand.</translation>
    </message>
    <message>
        <source>Surface of the ball, unrolled about the spin axis</source>
        <translation>Oberfläche des Balls, um die Drehachse abgerollt</translation>
    </message>
    <message>
        <source>axis</source>
        <translation>Achse</translation>
    </message>
    <message>
        <source>one turn across</source>
        <translation>in der Breite eine Umdrehung</translation>
    </message>
</context>
<context>
    <name>ui::reading::Time</name>
    <message>
        <source>%1 ms</source>
        <translation>%1 ms</translation>
    </message>
</context>
<context>
    <name>ui::reading::TurnGrid</name>
    <message>
        <source>Turn grid</source>
        <translation>Umdrehungsraster</translation>
    </message>
    <message>
        <source>turn</source>
        <translation>Umdrehung</translation>
    </message>
    <message>
        <source>No shot is open. Choose one in the list at the left, or add clips on the Footage screen.</source>
        <translation>Kein Schlag ist geöffnet. Wählen Sie einen in der Liste links, oder fügen Sie unter Aufnahmen Clips hinzu.</translation>
    </message>
    <message>
        <source>turn
%1</source>
        <translation>Umdrehung
%1</translation>
    </message>
    <message>
        <source>%1 start</source>
        <translation>%1 Start</translation>
    </message>
    <message>
        <source>%1 turn %2</source>
        <translation>%1 Umdrehung %2</translation>
    </message>
    <message>
        <source>%1 return</source>
        <translation>%1 Wiederkehr</translation>
    </message>
    <message>
        <source>S</source>
        <comment>letter on the chip that marks the start</comment>
        <translation>S</translation>
    </message>
    <message>
        <source>R</source>
        <comment>letter on the chip that marks a return</comment>
        <translation>R</translation>
    </message>
    <message>
        <source>%1, turn %2</source>
        <translation>%1, Umdrehung %2</translation>
    </message>
</context>
<context>
    <name>ui::reading::TurnGridPanel</name>
    <message>
        <source>The way in which the mark turns; press for the other way</source>
        <translation>Wie herum sich die Marke dreht; drücken wechselt</translation>
    </message>
    <message>
        <source>Turn grid</source>
        <translation>Umdrehungsraster</translation>
    </message>
    <message>
        <source>row = one turn of %1 frames (%2 rpm)</source>
        <translation>Zeile = eine Umdrehung mit %1 Bildern (%2 U/min)</translation>
    </message>
    <message>
        <source>↻ clockwise</source>
        <translation>↻ rechts herum</translation>
    </message>
    <message>
        <source>↺ counter-clockwise</source>
        <translation>↺ links herum</translation>
    </message>
    <message>
        <source>row of %1 frames (%2 rpm)</source>
        <translation>Zeile mit %1 Bildern (%2 U/min)</translation>
    </message>
    <message>
        <source>row of %1 frames</source>
        <translation>Zeile mit %1 Bildern</translation>
    </message>
</context>
<context>
    <name>ui::shell</name>
    <message>
        <source>A table made with this program describes the specimens and hitters that were filmed; whether an implement is legal to play with is for the governing body to say.</source>
        <translation>Eine Tabelle aus diesem Programm beschreibt die gefilmten Exemplare und Spieler; ob mit einem Gerät gespielt werden darf, sagt der zuständige Verband.</translation>
    </message>
    <message>
        <source>%1 (waiting)</source>
        <translation>%1 (wartet)</translation>
    </message>
    <message>
        <source>Packed projects (*.tar)</source>
        <translation>Gepackte Projekte (*.tar)</translation>
    </message>
    <message>
        <source>The project and %1 are in %2 (%3 MB).</source>
        <translation>Das Projekt und %1 sind in %2 (%3 MB).</translation>
    </message>
    <message>
        <source>%1 stays as it is. Saved here:</source>
        <translation>%1 bleibt, wie es ist. Gespeichert hier:</translation>
    </message>
    <message>
        <source>Nothing is lost except the steps to undo.</source>
        <translation>Nichts ist verloren außer den Schritten zum Rückgängigmachen.</translation>
    </message>
    <message>
        <source>Lost, with the steps to undo:</source>
        <translation>Verloren, neben den Schritten zum Rückgängigmachen:</translation>
    </message>
    <message>
        <source>and %1 more; turnmark-cli rescue lists them all</source>
        <translation>und %1 weitere; turnmark-cli rescue führt alle auf</translation>
    </message>
    <message>
        <source>Turnmark projects (*.turnmark)</source>
        <translation>Turnmark-Projekte (*.turnmark)</translation>
    </message>
    <message>
        <source>filmed unplanned</source>
        <translation>ohne Plan gefilmt</translation>
    </message>
    <message>
        <source>nothing yet</source>
        <translation>noch nichts</translation>
    </message>
    <message>
        <source>%1 of %2 unsure</source>
        <translation>%1 von %2 unsicher</translation>
    </message>
    <message>
        <source>%1 not assigned</source>
        <translation>%1 nicht zugeordnet</translation>
    </message>
    <message>
        <source>no clips</source>
        <translation>keine Clips</translation>
    </message>
    <message>
        <source>no shots</source>
        <translation>keine Schläge</translation>
    </message>
    <message>
        <source>%1 of %2 read</source>
        <translation>%1 von %2 gelesen</translation>
    </message>
    <message>
        <source>all settled</source>
        <translation>alles geklärt</translation>
    </message>
    <message>
        <source>%1 open · %2 grave</source>
        <translation>%1 offen · %2 ernst</translation>
    </message>
    <message>
        <source>%1 to check</source>
        <translation>%1 zu prüfen</translation>
    </message>
    <message>
        <source>%1 ranked</source>
        <translation>%1 im Rang</translation>
    </message>
    <message>
        <source>not yet</source>
        <translation>noch nicht</translation>
    </message>
    <message>
        <source>changed since</source>
        <translation>seither geändert</translation>
    </message>
    <message>
        <source>published</source>
        <translation>veröffentlicht</translation>
    </message>
</context>
<context>
    <name>ui::shell::BackupKeeper</name>
    <message>
        <source>Copying the project</source>
        <translation>Projekt wird gesichert</translation>
    </message>
    <message>
        <source>No copy was made: %1</source>
        <translation>Keine Sicherung: %1</translation>
    </message>
</context>
<context>
    <name>ui::shell::BackupsWindow</name>
    <message>
        <source>&amp;Restore</source>
        <translation>&amp;Wiederherstellen</translation>
    </message>
    <message>
        <source>Copies</source>
        <translation>Sicherungen</translation>
    </message>
    <message>
        <source>made</source>
        <translation>angelegt</translation>
    </message>
    <message>
        <source>shots</source>
        <translation>Schläge</translation>
    </message>
    <message>
        <source>kept</source>
        <translation>behalten</translation>
    </message>
    <message>
        <source>readings</source>
        <translation>Ablesungen</translation>
    </message>
    <message>
        <source>size, kB</source>
        <translation>Größe, kB</translation>
    </message>
    <message>
        <source>last change</source>
        <translation>letzte Änderung</translation>
    </message>
    <message>
        <source>The project becomes what it was then; what it is now is kept beside it under another name</source>
        <translation>Das Projekt wird, was es damals war; was es jetzt ist, bleibt unter anderem Namen daneben</translation>
    </message>
    <message>
        <source> min</source>
        <translation> min</translation>
    </message>
    <message>
        <source>only on opening</source>
        <translation>nur beim Öffnen</translation>
    </message>
    <message>
        <source>How often a copy is made while you work, when something has changed</source>
        <translation>Wie oft während der Arbeit gesichert wird, wenn sich etwas geändert hat</translation>
    </message>
    <message>
        <source>&amp;A copy every</source>
        <translation>&amp;Sicherung alle</translation>
    </message>
    <message>
        <source>&amp;Close</source>
        <translation>S&amp;chließen</translation>
    </message>
    <message>
        <source>Looking into the copies…</source>
        <translation>Sicherungen werden angesehen…</translation>
    </message>
    <message>
        <source>Looking into the copies</source>
        <translation>Sicherungen werden angesehen</translation>
    </message>
    <message>
        <source>No copies yet. The first is made in %1 while you work.</source>
        <translation>Noch keine Sicherungen. Die erste entsteht in %1, während Sie arbeiten.</translation>
    </message>
    <message>
        <source>Copies of the project in %1, newest first.</source>
        <translation>Sicherungen des Projekts in %1, neueste zuerst.</translation>
    </message>
</context>
<context>
    <name>ui::shell::GuideWindow</name>
    <message>
        <source>&amp;Back</source>
        <translation>&amp;Zurück</translation>
    </message>
    <message>
        <source>Search the guide</source>
        <translation>Im Leitfaden suchen</translation>
    </message>
    <message>
        <source>Sections that hold all these words (Ctrl+F)</source>
        <translation>Abschnitte, die all diese Wörter enthalten (Strg+F)</translation>
    </message>
    <message>
        <source>Contents of the guide</source>
        <translation>Inhalt des Leitfadens</translation>
    </message>
    <message>
        <source>The page before (Alt+Left)</source>
        <translation>Die Seite davor (Alt+Links)</translation>
    </message>
    <message>
        <source>Page of the guide</source>
        <translation>Seite des Leitfadens</translation>
    </message>
    <message>
        <source>%1 – Turnmark guide</source>
        <translation>%1 – Turnmark-Leitfaden</translation>
    </message>
    <message>
        <source>No section holds all these words.</source>
        <translation>Kein Abschnitt enthält all diese Wörter.</translation>
    </message>
</context>
<context>
    <name>ui::shell::JobsButton</name>
    <message>
        <source>Work in the background; open to pause or cancel. Pictures and readings hold %1 of the %2 MiB that they may</source>
        <translation>Arbeit im Hintergrund; öffnen, um anzuhalten oder abzubrechen. Bilder und Ablesungen belegen %1 der %2 MiB, die sie dürfen</translation>
    </message>
    <message>
        <source>Paused: %1</source>
        <translation>Angehalten: %1</translation>
    </message>
    <message>
        <source>Go on</source>
        <translation>Fortsetzen</translation>
    </message>
    <message>
        <source>Pause</source>
        <translation>Anhalten</translation>
    </message>
    <message>
        <source>Cancel: %1</source>
        <translation>Abbrechen: %1</translation>
    </message>
</context>
<context>
    <name>ui::shell::KeysWindow</name>
    <message>
        <source>Keys</source>
        <translation>Tasten</translation>
    </message>
    <message>
        <source>Click into a key and press another one to change it.</source>
        <translation>Klicken Sie in eine Taste und drücken Sie eine andere, um sie zu ändern.</translation>
    </message>
    <message>
        <source>Action</source>
        <translation>Aktion</translation>
    </message>
    <message>
        <source>Key</source>
        <translation>Taste</translation>
    </message>
    <message>
        <source>%1 is already the key of &quot;%2&quot;. Give that another key first.</source>
        <translation>%1 ist schon die Taste von „%2“. Geben Sie dieser Aktion zuerst eine andere.</translation>
    </message>
    <message>
        <source>&quot;%1&quot; is now %2.</source>
        <translation>„%1“ ist jetzt %2.</translation>
    </message>
    <message>
        <source>without a key</source>
        <translation>ohne Taste</translation>
    </message>
</context>
<context>
    <name>ui::shell::MainWindow</name>
    <message>
        <source>Plan</source>
        <translation>Plan</translation>
    </message>
    <message>
        <source>The filming day: implements, hitters, order, cards</source>
        <translation>Der Drehtag: Geräte, Spieler, Reihenfolge, Karten</translation>
    </message>
    <message>
        <source>Footage</source>
        <translation>Aufnahmen</translation>
    </message>
    <message>
        <source>Clips, clocks and shots</source>
        <translation>Clips, Uhren und Schläge</translation>
    </message>
    <message>
        <source>Reading</source>
        <translation>Ablesen</translation>
    </message>
    <message>
        <source>One shot after the other</source>
        <translation>Ein Schlag nach dem anderen</translation>
    </message>
    <message>
        <source>Doubts</source>
        <translation>Zweifel</translation>
    </message>
    <message>
        <source>Shots that deserve a second look, worst first</source>
        <translation>Schläge, die einen zweiten Blick verdienen, die schwersten zuerst</translation>
    </message>
    <message>
        <source>Findings</source>
        <translation>Ergebnisse</translation>
    </message>
    <message>
        <source>Spin rates per implement</source>
        <translation>Drehzahlen je Gerät</translation>
    </message>
    <message>
        <source>Publish</source>
        <translation>Veröffentlichen</translation>
    </message>
    <message>
        <source>What is open, then the page and files for others</source>
        <translation>Was offen ist, dann die Seite und die Dateien für andere</translation>
    </message>
    <message>
        <source>Undo</source>
        <translation>Rückgängig</translation>
    </message>
    <message>
        <source>Redo</source>
        <translation>Erneut ausführen</translation>
    </message>
    <message>
        <source>the last step, whose names are hidden</source>
        <translation>der letzte Schritt, dessen Namen verborgen sind</translation>
    </message>
    <message>
        <source>Done again: %1</source>
        <translation>Erneut ausgeführt: %1</translation>
    </message>
    <message>
        <source>Undone: %1</source>
        <translation>Rückgängig gemacht: %1</translation>
    </message>
    <message>
        <source>reader not named</source>
        <translation>Ableser nicht genannt</translation>
    </message>
    <message>
        <source>reader %1</source>
        <translation>Ableser %1</translation>
    </message>
    <message>
        <source>&amp;Project</source>
        <translation>&amp;Projekt</translation>
    </message>
    <message>
        <source>&amp;New…</source>
        <translation>&amp;Neu…</translation>
    </message>
    <message>
        <source>A new, empty project file</source>
        <translation>Eine neue, leere Projektdatei</translation>
    </message>
    <message>
        <source>&amp;Open…</source>
        <translation>Ö&amp;ffnen…</translation>
    </message>
    <message>
        <source>Open a project file</source>
        <translation>Eine Projektdatei öffnen</translation>
    </message>
    <message>
        <source>Open the &amp;demo</source>
        <translation>&amp;Demo öffnen</translation>
    </message>
    <message>
        <source>Invented figures</source>
        <translation>Erfundene Zahlen</translation>
    </message>
    <message>
        <source>&amp;Close project</source>
        <translation>Projekt &amp;schließen</translation>
    </message>
    <message>
        <source>Back to the start page; everything is in the file already</source>
        <translation>Zurück zur Startseite; alles steht schon in der Datei</translation>
    </message>
    <message>
        <source>&amp;Quit</source>
        <translation>&amp;Beenden</translation>
    </message>
    <message>
        <source>Leave; everything is in the file already</source>
        <translation>Beenden; alles steht schon in der Datei</translation>
    </message>
    <message>
        <source>Cop&amp;ies…</source>
        <translation>Si&amp;cherungen…</translation>
    </message>
    <message>
        <source>The copies of this project, and the way back to one of them</source>
        <translation>Die Sicherungen dieses Projekts und der Weg zurück zu einer davon</translation>
    </message>
    <message>
        <source>&amp;Unpack…</source>
        <translation>&amp;Auspacken…</translation>
    </message>
    <message>
        <source>A project that was packed on another machine</source>
        <translation>Ein Projekt, das auf einem anderen Rechner gepackt wurde</translation>
    </message>
    <message>
        <source>&amp;Pack into one file</source>
        <translation>In eine Datei &amp;packen</translation>
    </message>
    <message>
        <source>With the clips of &amp;kept shots…</source>
        <translation>Mit den Clips &amp;behaltener Schläge…</translation>
    </message>
    <message>
        <source>With &amp;all clips…</source>
        <translation>Mit &amp;allen Clips…</translation>
    </message>
    <message>
        <source>&amp;Without clips…</source>
        <translation>&amp;Ohne Clips…</translation>
    </message>
    <message>
        <source>The project as it is now, to carry to another machine</source>
        <translation>Das Projekt, wie es jetzt ist, zum Mitnehmen auf einen anderen Rechner</translation>
    </message>
    <message>
        <source>&amp;View</source>
        <translation>&amp;Ansicht</translation>
    </message>
    <message>
        <source>&amp;Larger text</source>
        <translation>Text &amp;größer</translation>
    </message>
    <message>
        <source>Larger text</source>
        <translation>Text größer</translation>
    </message>
    <message>
        <source>&amp;Smaller text</source>
        <translation>Text &amp;kleiner</translation>
    </message>
    <message>
        <source>Smaller text</source>
        <translation>Text kleiner</translation>
    </message>
    <message>
        <source>L&amp;ight</source>
        <translation>&amp;Hell</translation>
    </message>
    <message>
        <source>&amp;Dark</source>
        <translation>&amp;Dunkel</translation>
    </message>
    <message>
        <source>&amp;Help</source>
        <translation>&amp;Hilfe</translation>
    </message>
    <message>
        <source>All &amp;keys…</source>
        <translation>Alle &amp;Tasten…</translation>
    </message>
    <message>
        <source>Every action with its key</source>
        <translation>Jede Aktion mit ihrer Taste</translation>
    </message>
    <message>
        <source>&amp;Guide</source>
        <translation>&amp;Leitfaden</translation>
    </message>
    <message>
        <source>How it is done, at the page that fits the screen</source>
        <translation>Wie es gemacht wird, auf der Seite, die zur Ansicht passt</translation>
    </message>
    <message>
        <source>&amp;Cautions</source>
        <translation>&amp;Sicherheitshinweise</translation>
    </message>
    <message>
        <source>&amp;About</source>
        <translation>Ü&amp;ber Turnmark</translation>
    </message>
    <message>
        <source>Cautions</source>
        <translation>Sicherheitshinweise</translation>
    </message>
    <message>
        <source>Qt %1</source>
        <translation>Qt %1</translation>
    </message>
    <message>
        <source>About Turnmark</source>
        <translation>Über Turnmark</translation>
    </message>
    <message>
        <source>%1

Spin rates of a struck ball, read from video, with their uncertainty.

Free software under the GNU General Public License, version 3 or later; it comes without any warranty.</source>
        <translation>%1

Drehzahlen eines geschlagenen Balls, aus Video abgelesen, mit ihrer Unsicherheit.

Freie Software unter der GNU General Public License, Version 3 oder später; ohne jede Gewährleistung.</translation>
    </message>
    <message>
        <source>Spin in &amp;rpm</source>
        <translation>Drall in &amp;U/min</translation>
    </message>
    <message>
        <source>Spin in rpm and &amp;turns per second</source>
        <translation>Drall in U/min u&amp;nd U/s</translation>
    </message>
    <message>
        <source>Spin in rpm and r&amp;ad/s</source>
        <translation>Drall in U/min und &amp;rad/s</translation>
    </message>
    <message>
        <source>%1
Press to say who reads now; the name goes with every reading</source>
        <translation>%1
Drücken, um zu sagen, wer jetzt abliest; der Name geht mit jeder Ablesung mit</translation>
    </message>
    <message>
        <source>Nothing more can be kept now.</source>
        <translation>Jetzt lässt sich nichts mehr behalten.</translation>
    </message>
    <message>
        <source>published</source>
        <translation>veröffentlicht</translation>
    </message>
    <message>
        <source>New project</source>
        <translation>Neues Projekt</translation>
    </message>
    <message>
        <source>Open a project</source>
        <translation>Projekt öffnen</translation>
    </message>
    <message>
        <source>Opening the demo</source>
        <translation>Demo wird geöffnet</translation>
    </message>
    <message>
        <source>Restored. The project as it was before is in %1.</source>
        <translation>Wiederhergestellt. Das Projekt, wie es vorher war, ist in %1.</translation>
    </message>
    <message>
        <source>Copies…</source>
        <translation>Sicherungen…</translation>
    </message>
    <message>
        <source>Save what can be read…</source>
        <translation>Lesbares retten…</translation>
    </message>
    <message>
        <source>Into a new project; the damaged one stays as it is</source>
        <translation>In ein neues Projekt; das beschädigte bleibt, wie es ist</translation>
    </message>
    <message>
        <source>Who reads?</source>
        <translation>Wer liest ab?</translation>
    </message>
    <message>
        <source>Name or initials; they go with every reading from now on.</source>
        <translation>Name oder Kürzel; sie gehen ab jetzt mit jeder Ablesung mit.</translation>
    </message>
    <message>
        <source>As the s&amp;ystem</source>
        <translation>Wie das &amp;System</translation>
    </message>
    <message>
        <source>La&amp;nguage</source>
        <translation>S&amp;prache</translation>
    </message>
    <message>
        <source>As the system</source>
        <translation>Wie das System</translation>
    </message>
    <message>
        <source>The language changes when Turnmark is started again.</source>
        <translation>Die Sprache wechselt beim nächsten Start von Turnmark.</translation>
    </message>
</context>
<context>
    <name>ui::shell::ProjectFiles</name>
    <message>
        <source>Save what can be read</source>
        <translation>Lesbares retten</translation>
    </message>
    <message>
        <source>Saving what can be read</source>
        <translation>Lesbares wird gerettet</translation>
    </message>
    <message>
        <source>Saved what can be read</source>
        <translation>Lesbares gerettet</translation>
    </message>
    <message>
        <source>Nothing was saved</source>
        <translation>Nichts wurde gespeichert</translation>
    </message>
    <message>
        <source>Pack the project</source>
        <translation>Projekt packen</translation>
    </message>
    <message>
        <source>Packing the project</source>
        <translation>Projekt wird gepackt</translation>
    </message>
    <message>
        <source>Packed</source>
        <translation>Gepackt</translation>
    </message>
    <message>
        <source>Not packed</source>
        <translation>Nicht gepackt</translation>
    </message>
    <message>
        <source>Unpack a project</source>
        <translation>Projekt auspacken</translation>
    </message>
    <message>
        <source>Folder to unpack into</source>
        <translation>Ordner zum Auspacken</translation>
    </message>
    <message>
        <source>Unpacking a project</source>
        <translation>Ein Projekt wird ausgepackt</translation>
    </message>
    <message>
        <source>Not unpacked</source>
        <translation>Nicht ausgepackt</translation>
    </message>
</context>
<context>
    <name>ui::shell::StartArt</name>
    <message>
        <source>Plan</source>
        <translation>Plan</translation>
    </message>
    <message>
        <source>who hits what, how often</source>
        <translation>wer was schlägt, wie oft</translation>
    </message>
    <message>
        <source>Footage</source>
        <translation>Aufnahmen</translation>
    </message>
    <message>
        <source>add the clips, find the shots</source>
        <translation>Clips hinzufügen, Schläge finden</translation>
    </message>
    <message>
        <source>Reading</source>
        <translation>Ablesen</translation>
    </message>
    <message>
        <source>one key a shot</source>
        <translation>eine Taste je Schlag</translation>
    </message>
    <message>
        <source>Doubts</source>
        <translation>Zweifel</translation>
    </message>
    <message>
        <source>look again, decide</source>
        <translation>noch einmal ansehen, entscheiden</translation>
    </message>
    <message>
        <source>Findings</source>
        <translation>Ergebnisse</translation>
    </message>
    <message>
        <source>rank with intervals</source>
        <translation>Rangliste mit Intervallen</translation>
    </message>
    <message>
        <source>Publish</source>
        <translation>Veröffentlichen</translation>
    </message>
    <message>
        <source>a page others can check</source>
        <translation>eine Seite, die andere prüfen können</translation>
    </message>
    <message>
        <source>Turnmark: the spin of a struck ball, read from your footage</source>
        <translation>Turnmark: der Drall eines geschlagenen Balls, aus Ihren Aufnahmen abgelesen</translation>
    </message>
    <message>
        <source>The spin of a struck ball, read from your own footage. Every number with its uncertainty.</source>
        <translation>Der Drall eines geschlagenen Balls, aus Ihren eigenen Aufnahmen abgelesen. Jede Zahl mit ihrer Unsicherheit.</translation>
    </message>
</context>
<context>
    <name>ui::shell::StartPage</name>
    <message>
        <source>New project…</source>
        <translation>Neues Projekt…</translation>
    </message>
    <message>
        <source>An empty project file (Ctrl+N)</source>
        <translation>Eine leere Projektdatei (Strg+N)</translation>
    </message>
    <message>
        <source>Open a project…</source>
        <translation>Projekt öffnen…</translation>
    </message>
    <message>
        <source>A .turnmark file (Ctrl+O)</source>
        <translation>Eine .turnmark-Datei (Strg+O)</translation>
    </message>
    <message>
        <source>Open the demo</source>
        <translation>Demo öffnen</translation>
    </message>
    <message>
        <source>A club&apos;s stringing bench compares string set-ups; every figure is invented</source>
        <translation>Die Bespannwerkstatt eines Vereins vergleicht Besaitungen; jede Zahl ist erfunden</translation>
    </message>
    <message>
        <source>First time here?</source>
        <translation>Zum ersten Mal hier?</translation>
    </message>
    <message>
        <source>A stringing bench with 8 set-ups and 2 hitters; every figure is invented.</source>
        <translation>Eine Bespannwerkstatt mit 8 Besaitungen und 2 Spielern; jede Zahl ist erfunden.</translation>
    </message>
    <message>
        <source>Test clip…</source>
        <translation>Probeclip…</translation>
    </message>
    <message>
        <source>A clip can also be dropped on this page</source>
        <translation>Ein Clip lässt sich auch auf diese Seite ziehen</translation>
    </message>
    <message>
        <source>Before the filming day</source>
        <translation>Vor dem Drehtag</translation>
    </message>
    <message>
        <source>A clip of a few strikes, dropped here: good to film like this, or what to change.</source>
        <translation>Ein Clip mit wenigen Schlägen, hierher gezogen: gut so zu filmen, oder was zu ändern ist.</translation>
    </message>
    <message>
        <source>Carry on</source>
        <translation>Weitermachen</translation>
    </message>
    <message>
        <source>Begin</source>
        <translation>Anfangen</translation>
    </message>
    <message>
        <source>Open %1</source>
        <translation>%1 öffnen</translation>
    </message>
</context>
<context>
    <name>ui::style</name>
    <message>
        <source>start</source>
        <translation>Start</translation>
    </message>
    <message>
        <source>one turn</source>
        <translation>eine Umdrehung</translation>
    </message>
</context>
<context>
    <name>ui::style::EmptyPage</name>
    <message>
        <source>Go to Footage</source>
        <translation>Zu den Aufnahmen</translation>
    </message>
    <message>
        <source>Go to Reading</source>
        <translation>Zum Ablesen</translation>
    </message>
</context>
<context>
    <name>ui::style::FoldCard</name>
    <message>
        <source>open</source>
        <translation>offen</translation>
    </message>
    <message>
        <source>folded</source>
        <translation>zugeklappt</translation>
    </message>
</context>
<context>
    <name>ui::style::RemarkLine</name>
    <message>
        <source>Grave</source>
        <translation>Ernst</translation>
    </message>
    <message>
        <source>To check</source>
        <translation>Zu prüfen</translation>
    </message>
    <message>
        <source>Note</source>
        <translation>Hinweis</translation>
    </message>
    <message>
        <source>Done</source>
        <translation>Erledigt</translation>
    </message>
    <message>
        <source>%1: %2</source>
        <translation>%1: %2</translation>
    </message>
    <message>
        <source>%1: %2 %3</source>
        <translation>%1: %2 %3</translation>
    </message>
</context>
</TS>
