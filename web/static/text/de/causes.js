// German of causes: what to change, what to do, and what shows them. The keys are the codes of package phrase.

/** @type {Readonly<Record<string, string>>} */
export const causes = {
  'change.keep-the-bank-from-growing': 'Querlage nicht wachsen lassen',
  'change.keep-the-bank-on': 'Querlage halten',
  'change.less-bank': 'Weniger Querlage',
  'change.more-bank': 'Mehr Querlage',
  'change.roll-out-slower': 'Langsamer ausleiten',
  'change.roll-in-slower': 'Langsamer einleiten',
  'change.keep-rolling-to-ninety': 'Rollen bis neunzig',
  'change.steepest-bank-at-ninety': 'Größte Querlage bei neunzig',
  'change.roll-slower-nose-first': 'Langsamer rollen, Nase zuerst',
  'change.keep-the-bank-coming': 'Querlage weiter wachsen lassen',
  'change.bank-off-more-slowly': 'Querlage langsamer heraus',
  'change.hold-the-turn-longer': 'Kurve länger halten',
  'change.start-the-roll-out-sooner': 'Ausleiten früher beginnen',
  'change.hold-the-bank-to-ninety': 'Querlage bis neunzig halten',
  'change.start-rolling-out-at-ninety': 'Bei neunzig ausleiten',
  'change.raise-the-nose-sooner': 'Nase früher heben',
  'change.leave-the-power-alone': 'Leistung so lassen',
  'change.bring-the-nose-up-sooner': 'Nase früher heben',
  'change.lower-nose-in-descent': 'Im Sinken Nase tiefer',
  'change.pull-out-sooner': 'Früher abfangen',
  'change.more-back-pressure': 'Mehr ziehen',
  'change.let-the-nose-down-further': 'Nase weiter ablassen',
  'change.ease-the-back-pressure': 'Höhenruder nachlassen',
  'change.more-nose-use-the-speed': 'Mehr Nase, Fahrt nutzen',
  'change.stop-a-little-faster': 'Etwas schneller aufhören',
  'change.less-power-next-time': 'Nächstes Mal weniger Leistung',
  'change.less-power-in-the-turn': 'Weniger Leistung im Kreis',
  'change.more-power-next-time': 'Nächstes Mal mehr Leistung',
  'change.more-power-in-the-turn': 'Mehr Leistung im Kreis',
  'change.pull-more-gently': 'Sanfter ziehen',
  'change.pull-more-use-the-speed': 'Mehr ziehen, Fahrt nutzen',
  'change.more-nose-less-bank': 'Mehr Nase, weniger Querlage',
  'change.step-on-the-ball': 'In die Kugel treten',
  'change.settle-down-before-entry': 'Vor Beginn zur Ruhe kommen',
  'change.wait-for-entry-speed': 'Anfangsfahrt abwarten',
  'change.slow-down-before-entry': 'Vor Beginn langsamer',
  'change.start-from-level-flight': 'Aus dem Horizontalflug beginnen',
  'change.start-with-wings-level': 'Mit geraden Flächen beginnen',
  'change.slower-do-not-rush': 'Langsamer, nicht hetzen',
  'change.a-little-quicker': 'Etwas zügiger',
  'change.finish-the-turn': 'Kurve zu Ende fliegen',
  'change.start-higher': 'Höher beginnen',
  'change.stay-inside-the-limits': 'In den Grenzen bleiben',
  'change.pull-the-nose-higher': 'Nase höher ziehen',
  'change.roll-in-with-the-pull': 'Mit dem Ziehen einleiten',
  'change.nose-highest-by-forty-five': 'Nase bis fünfundvierzig oben',
  'change.let-the-nose-drop-sooner': 'Nase früher fallen lassen',
  'change.hold-the-nose-up-longer': 'Nase länger oben halten',
  'change.hold-the-nose-up': 'Nase oben halten',
  'change.hold-the-nose-no-higher': 'Nase halten, nicht höher',
  'change.the-second-the-other-way': 'Die zweite andersherum',
  'change.same-picture-both-ways': 'Gleiches Bild beidseits',
  'change.finish-on-the-line': 'Auf der Linie enden',
  'change.fly-all-the-legs': 'Alle Teile fliegen',
  'change.keep-everything-moving': 'Alles in Bewegung halten',
  'change.clear-the-area-first': 'Erst den Luftraum prüfen',
  'change.climb-not-just-turn': 'Steigen, nicht nur kurven',
  'change.slower-roll-at-the-start': 'Anfangs langsamer rollen',
  'change.let-the-nose-down-slowly': 'Nase langsam ablassen',
  'change.shallower-descent': 'Flacher sinken',
  'change.same-below-as-above': 'Unten wie oben',
  'change.one-smooth-steady-pressure': 'Ein weicher, stetiger Druck',

  'correct.bank-grows':
    'Die Querlage wuchs weiter, nachdem sie stand, wie sie es im Steigflug von selbst tut: mit leichtem ' +
    'Gegenquerruder halten, und mit dem Seitenruder die Kugel.',
  'correct.bank-grows-level':
    'Die Querlage wuchs weiter, nachdem sie stand, wie sie es in der Steilkurve von selbst tut: mit leichtem ' +
    'Gegenquerruder halten, und mit dem Seitenruder die Kugel.',
  'correct.bank-falls-off':
    'Die Querlage ging zu früh heraus: die Fläche gegen den Horizont ansehen und sie dort halten.',
  'correct.overbanked':
    'Die Querlage ging zu weit, und dahinter fällt die Nase durch: das Rollen früher anhalten und den Horizont ' +
    'über der Nase suchen.',
  'correct.overbanked-level':
    'Die Querlage war zu groß: erst Querlage herausnehmen, dann mit Zug die Höhe halten. Zug allein macht die ' +
    'Kurve nur enger.',
  'correct.overbanked-climb':
    'Die Querlage war zu groß, und der Auftrieb für die Höhe ging in die Kurve: das Rollen früher anhalten und die ' +
    'Nase weiter steigen lassen.',
  'correct.underbanked':
    'Es war zu wenig Querlage: langsam bis zum steilsten Punkt weiterrollen und die Nase herumkommen lassen.',
  'correct.underbanked-level':
    'Die Querlage war zu klein: bis zur gewünschten weiterrollen und sie dort am Horizont halten.',
  'correct.underbanked-climb':
    'Die Querlage war zu klein, so dauert die Kurve länger, als die Fahrt reicht: zuerst zur gewünschten Querlage ' +
    'rollen und sie halten, während die Nase hochkommt.',
  'correct.roll-out-quick':
    'Die Querlage blieb zu lange und ging dann hastig heraus: kurz nach neunzig beginnen und sie so langsam ' +
    'herausnehmen, wie sie hineinkam.',
  'correct.roll-in-quick':
    'Die Querlage kam schneller hinein, als sie herausging: mit einem langsamen, gleichmäßigen Druck einleiten.',
  'correct.bank-peak-early':
    'Die Querlage war zu früh am größten und ging heraus, bevor die Nase herum war: langsamer rollen und bis ' +
    'neunzig Grad weiterrollen.',
  'correct.bank-peak-late':
    'Die Querlage war zu spät am größten: sie bis neunzig Grad ganz haben, dann gleich beginnen, sie ' +
    'herauszunehmen.',
  'correct.bank-leads':
    'Die Querlage war der Kurve voraus: erst die Nase steigen und die Querlage nicht schneller wachsen lassen ' +
    'als die Kurve.',
  'correct.bank-lags':
    'Die Querlage war hinter der Kurve: mit dem Ziehen zu rollen beginnen und die Querlage herauszunehmen ' +
    'beginnen, wenn die Nase neunzig Grad passiert.',
  'correct.level-early':
    'Die Flächen waren vor dem Kurs gerade: die Querlage so langsam herausnehmen, dass ihr Rest mit dem Kurs ' +
    'geht.',
  'correct.rolled-out-early':
    'Vor dem Kurs ausgeleitet: den Bezugspunkt über der Fläche suchen und etwas Querlage halten, bis er dort ist.',
  'correct.rolled-out-early-level':
    'Vor dem Kurs ausgeleitet: die Querlage halten, bis noch halb so viele Grad fehlen wie Querlage anliegt und der ' +
    'Bezugspunkt zur Nase kommt.',
  'correct.rolled-out-late':
    'Über den Kurs hinausgedreht: früher ausleiten, sodass der Rest der Querlage mit dem Kurs geht.',
  'correct.rolled-out-late-to':
    'Über den Kurs hinausgedreht: früher ausleiten, sodass bei noch {left} der Kurve {bank} Querlage übrig sind.',
  'correct.rolled-out-late-level':
    'Über den Kurs hinausgedreht: ausleiten, wenn noch so viele Grad bleiben, wie die halbe Querlage hat.',
  'correct.roll-out-begun-early':
    'Das Ausleiten begann zu früh: die Querlage halten, bis die Nase neunzig Grad passiert hat.',
  'correct.roll-out-begun-late':
    'Das Ausleiten begann zu spät: die Querlage herauszunehmen beginnen, wenn die Nase neunzig Grad passiert.',
  'correct.dive-not-shallowed':
    'Die Nase war noch tief, als die Flächen gerade wurden: bei hundertfünfunddreißig zu heben beginnen, während ' +
    'die Querlage herausgeht.',
  'correct.power-added':
    'Unterwegs kam Leistung dazu, also war das Ende schnell: sie vor Beginn setzen und die Hand bis zum ' +
    'Geradeausflug wegnehmen.',
  'correct.power-reduced':
    'Unterwegs ging Leistung weg, also war das Ende langsam: sie vor Beginn setzen und die Hand bis zum ' +
    'Geradeausflug wegnehmen.',
  'correct.ends-low':
    'Das Ende lag unter der Anfangshöhe: die Nase früher heben und das Sinken so flach sein lassen wie das ' +
    'Steigen.',
  'correct.ends-high': 'Das Ende lag über der Anfangshöhe: die Nase so weit hinunterlassen, wie sie hinaufging.',
  'correct.height-lost':
    'Das Ende war tief: die Nase früher mit etwas mehr Zug heben, bevor die Flächen gerade sind.',
  'correct.height-lost-level':
    'In der Kurve ging Höhe verloren: erst die Querlage prüfen, dann mit der Querlage mehr ziehen und die Nase ' +
    'dort halten, wo sie die Höhe hält.',
  'correct.height-gained':
    'Das Ende war hoch: die Nase in der zweiten Hälfte tiefer lassen und weniger ziehen, bis die Flächen fast ' +
    'gerade sind.',
  'correct.height-gained-level': 'In der Kurve wurde Höhe gewonnen: nachlassen, bis die Nase am Horizont stillsteht.',
  'correct.too-fast-at-the-end':
    'Am Ende war Fahrt übrig: die Nase in den ersten neunzig Grad mehr heben und alles in Höhe verwandeln.',
  'correct.too-slow-at-the-end': 'Die Fahrt ging vor dem Ende aus: die Nase ab neunzig Grad etwas tiefer halten.',
  'correct.exit-fast': 'Schnelles Ende bei unveränderter Leistung: sie war zu hoch, also vor Beginn weniger setzen.',
  'correct.exit-fast-level':
    'In der Kurve wuchs die Fahrt: etwas Leistung herausnehmen, sobald sie die Anfangsfahrt überschreitet.',
  'correct.exit-slow': 'Langsames Ende bei unveränderter Leistung: sie war zu niedrig, also vor Beginn mehr setzen.',
  'correct.exit-slow-level': 'In der Kurve sank die Fahrt: mit der Querlage etwas Leistung geben.',
  'correct.slow-over-the-top':
    'Die Fahrt war oben zu klein: nachlassen, sobald die Nase fünfundvierzig Grad passiert hat.',
  'correct.fast-over-the-top':
    'Die Fahrt war oben zu groß: in den ersten fünfundvierzig Grad etwas mehr ziehen, damit mehr davon Höhe ' +
    'wird.',
  'correct.little-height':
    'Es kam wenig Höhe dabei heraus: die Nase mehr heben und weniger rollen, damit aus Fahrt Höhe wird und nicht ' +
    'Kurve.',
  'correct.slip-or-skid':
    'Die Kugel war in der Kurve oft draußen: bei jedem Rollen Seitenruder zusammen mit dem Querruder geben und ' +
    'das Pedal auf der Seite der Kugel treten.',
  'correct.slip-or-skid-right':
    'Die Kugel war in der Kurve oft draußen: bei jedem Rollen Seitenruder zusammen mit dem Querruder geben, und ' +
    'mehr rechtes Seitenruder mit fallender Fahrt.',
  'correct.slip-or-skid-left':
    'Die Kugel war in der Kurve oft draußen: bei jedem Rollen Seitenruder zusammen mit dem Querruder geben, und ' +
    'mehr linkes Seitenruder mit fallender Fahrt.',
  'correct.not-stabilized':
    'Zu Beginn war mehr als eines in Bewegung: fünf Sekunden Höhe, Fahrt und gerade Flächen halten, dann ' +
    'beginnen.',
  'correct.entry-slow':
    'Zu langsam begonnen, also zu wenig Fahrt zum Steigen: vor dem Ziehen die Anfangsfahrt abwarten.',
  'correct.entry-slow-level': 'Zu langsam begonnen: vor dem Einleiten die Anfangsfahrt abwarten.',
  'correct.entry-fast':
    'Zu schnell begonnen, also lief die ganze Kurve schnell: vor dem Ziehen auf die Anfangsfahrt einpendeln.',
  'correct.entry-fast-level': 'Zu schnell begonnen: vor dem Einleiten die Anfangsfahrt einhalten.',
  'correct.entry-descending': 'Im Sinken begonnen: fünf Sekunden die Höhe halten, dann ziehen.',
  'correct.entry-descending-level': 'Im Sinken begonnen: fünf Sekunden die Höhe halten, dann einleiten.',
  'correct.entry-climbing': 'Im Steigen begonnen: fünf Sekunden die Höhe halten, dann ziehen.',
  'correct.entry-climbing-level': 'Im Steigen begonnen: fünf Sekunden die Höhe halten, dann einleiten.',
  'correct.entry-banked': 'Die Flächen waren zu Beginn nicht gerade: auf der Linie gerade machen, dann ziehen.',
  'correct.entry-banked-level':
    'Die Flächen waren zu Beginn nicht gerade: auf der Linie gerade machen, dann einleiten.',
  'correct.rushed':
    'Die Kurve war gehetzt: halb so schnell ein- und ausleiten und die Nase steigen lassen, bevor die Querlage ' +
    'wächst.',
  'correct.dragged':
    'Die Kurve zog sich hin: die Querlage stetig wachsen lassen, damit die Nase rechtzeitig herumkommt.',
  'correct.abandoned':
    'Die Kurve wurde unterwegs aufgegeben: vor dem Ziehen entscheiden, dann bis zu geraden Flächen auf dem Kurs ' +
    'durchfliegen.',
  'correct.abandoned-level':
    'Die Kurve wurde unterwegs aufgegeben: bis zu geraden Flächen auf dem Kurs durchfliegen.',
  'correct.below-hard-deck':
    'An der Mindesthöhe war Schluss: höher beginnen und selbst abbrechen, bevor sie erreicht ist.',
  'correct.limit-passed':
    'Eine Grenze des Flugzeugs wurde überschritten: früh nachlassen und im Sinken auf Fahrt und Last achten.',
  'correct.stalled':
    'Dem Flügel ging der Auftrieb aus: nachlassen, sobald die Ruder weich werden, und die Nase weniger heben.',
  'correct.nose-too-high':
    'Die Nase ging zu hoch, also ging oben die Fahrt aus: sanfter ziehen und die Nase tiefer anhalten.',
  'correct.nose-too-high-climb':
    'Die Nase ging zu hoch, also war die Fahrt weg, bevor die Flächen gerade waren: sanfter ziehen und Fahrt ' +
    'behalten, um die Nase bis zum Schluss oben zu halten.',
  'correct.nose-too-low':
    'Die Nase blieb zu tief, also wurde die Fahrt nie genutzt: in den ersten fünfundvierzig Grad etwas mehr ' +
    'ziehen.',
  'correct.nose-peak-early':
    'Die Nase war zu früh am höchsten: mit dem Ziehen zu rollen beginnen, sodass fünfundvierzig Grad der Kurve ' +
    'kommen, wenn die Nase am höchsten ist.',
  'correct.roll-in-late':
    'Die Nase wurde mit noch geraden Flügeln hochgezogen, das kostet Fahrt, bevor die Kurve beginnt: mit dem ' +
    'Ziehen zu rollen beginnen.',
  'correct.nose-peak-late':
    'Zu lange gezogen: die Nase bei fünfundvierzig Grad am höchsten haben, dann von der Querlage herunterbringen ' +
    'lassen.',
  'correct.nose-peak-late-gentle':
    'Fünfundvierzig Grad kamen, bevor die Nase am höchsten war: langsamer einleiten, denn steigende Nase und ' +
    'Querlage machen die Kurve beide schneller.',
  'correct.nose-late':
    'Die Nase war bei neunzig noch oben: nach fünfundvierzig Grad nachlassen und sie bei neunzig durch den ' +
    'Horizont fallen lassen.',
  'correct.nose-early':
    'Die Nase war bei neunzig schon unten: ein wenig gezogen halten, bis sie dort den Horizont kreuzt.',
  'correct.nose-dropped':
    'Die Nase sank beim Ausleiten: mit fallender Fahrt braucht es mehr Zug, also das Bild halten, bis die ' +
    'Flächen gerade sind.',
  'correct.nose-still-rising': 'Die Nase stieg beim Ausleiten weiter: sie bei neunzig Grad anhalten und dort halten.',
  'correct.held-still':
    'Etwas wurde gehalten, wo nie etwas stillsteht: Nase, Querlage und Fahrt langsam ändern, vom ersten der Kurve ' +
    'bis zum letzten.',
  'correct.turn-not-climb':
    'Es war eine Steilkurve und kaum ein Steigen: die Nase mit der Querlage heben, damit auf dem Weg zu neunzig ' +
    'Grad aus Fahrt Höhe wird.',
  'correct.nose-falls-through':
    'Die Nase fiel durch den Horizont: sie ab fünfundvierzig Grad ablassen und bis hundertfünfunddreißig ' +
    'gleichmäßig herunterkommen lassen.',
  'correct.dive-too-steep':
    'Das Sinken war zu steil: ab neunzig Grad ein wenig gezogen halten und die Nase so weit unter den Horizont ' +
    'lassen, wie sie darüber war.',
  'correct.uneven-halves':
    'Die beiden Hälften waren nicht gleich: die Nase bei hundertfünfunddreißig so weit unter den Horizont ' +
    'lassen, wie sie bei fünfundvierzig darüber war.',
  'correct.rough-controls':
    'Die Ruder wurden ruckweise bewegt: für jede Änderung ein weicher, stetiger Druck, und den Horizont ansehen, ' +
    'statt den Zahlen nachzujagen.',
  'correct.not-cleared':
    'Davor waren keine Kontrollkurven zu sehen: zwei Kurven von neunzig Grad in entgegengesetzte Richtungen ' +
    'fliegen und umsehen, dann beginnen.',
  'correct.same-direction':
    'Zwei Teile gingen in dieselbe Richtung: den zweiten zur anderen Seite fliegen, damit beide Seiten geübt ' +
    'sind und das Ende am Anfang liegt.',
  'correct.uneven':
    'Die Teile waren nicht gleich: zu beiden Seiten dieselbe Nase und dieselbe Querlage suchen und sie ' +
    'vergleichen, wo die Nase am höchsten ist, bei neunzig, und wo sie am tiefsten ist.',
  'correct.off-the-line':
    'Das Ende lag nicht auf der Linie des Beginns: eine Straße oder ein Ufer als Linie wählen und jeden Teil ' +
    'darauf ausleiten.',
  'correct.legs-missing': 'Das Manöver wurde nicht zu Ende geflogen: jeden Teil fliegen, einen nach dem anderen.',

  'evidence.flown': '{label}: {flown}, gewünscht {wanted}',
  'evidence.flown-at': '{label}: {flown} bei {turn} der Kurve, gewünscht {wanted}',
  'evidence.power': 'Die Leistung änderte sich um {share} %',
  'evidence.power-at': 'Die Leistung änderte sich um {share} % bei {turn} der Kurve',
  'evidence.with': '{shown}; dazu kam {came}',
  'evidence.only-with': 'Dazu kam {came}',
  'evidence.turn-took': 'Die Kurve dauerte {took}, die Zahlen geben etwa {meant}',
  'evidence.nose-at-thirty': 'Die Nase stand bei 30° der Kurve {nose} über dem Horizont, gewünscht {aim}',
  'evidence.bank-went': 'Die Querlage ging von {from} bei {start} der Kurve auf {to} bei {end}',
  'evidence.level-at': 'Die Flächen waren bei {turn} der Kurve gerade, gewünscht {wanted}',
  'evidence.nose-fell': 'Die Nase kam von {from} bis {to} der Kurve um {fell} herunter',
  'evidence.energy-short': 'Am Ende lag die Energiehöhe {off} unter der der Bezugsbahn, das meiste davon ging von ' +
    '{from} bis {to} der Kurve verloren',
  'evidence.energy-over': 'Am Ende lag die Energiehöhe {off} über der der Bezugsbahn, das meiste davon kam von ' +
    '{from} bis {to} der Kurve hinzu',
  'evidence.knock-off': 'Aus Sicherheit beendet: {reason}',
  'evidence.broken-off': 'Abgebrochen: {reason}',
  'evidence.both-right': 'Die Teile {first} und {second} gingen beide nach rechts',
  'evidence.both-left': 'Die Teile {first} und {second} gingen beide nach links',
  'band.exactly': '{value}',
  'band.between': '{low:bare} bis {high}',
  'band.at-least': 'mindestens {low}',
  'band.at-most': 'höchstens {high}',
  'band.any': '–',
  'list.sentences': '{first}; {rest}',
  'correct.rolled-out-early-third':
    'Zu früh ausgeleitet: die Querlage halten, bis noch ein Drittel ihrer Grade zu drehen ist.',
  'correct.rolled-out-late-third':
    'Über den Kurs gedreht: ausleiten, wenn noch ein Drittel der Querlage an Graden fehlt.',
  'change.farther-from-the-pylon': 'Weiter weg vom Pylon',
  'change.fly-a-wider-circle': 'Weiteren Kreis fliegen',
  'change.fly-higher': 'Höher fliegen',
  'change.fly-lower': 'Tiefer fliegen',
  'change.fly-three-whole-turns': 'Drei ganze Kreise fliegen',
  'change.follow-pivotal-altitude': 'Der Pivothöhe folgen',
  'change.hold-the-airspeed': 'Fahrt halten',
  'change.keep-one-distance': 'Einen Abstand halten',
  'change.keep-the-pylon-on-the-wing': 'Pylon auf der Fläche halten',
  'change.lower-the-nose-a-little': 'Nase etwas senken',
  'change.power-at-idle': 'Leistung im Leerlauf',
  'change.raise-the-nose-a-little': 'Nase etwas heben',
  'change.vary-bank-for-the-wind': 'Querlage nach dem Wind',
  'correct.airspeed-fast':
    'Die Fahrt wuchs in der Spirale: mit der Querlage die Nase etwas heben und dieses Bild halten.',
  'correct.airspeed-slow':
    'Die Fahrt fiel in der Spirale: mit der Querlage die Nase ablassen und dieses Bild halten.',
  'correct.airspeed-wanders':
    'Die Fahrt ging auf und ab: bei jeder Änderung der Querlage führt die Nase, dann die Fahrt ' +
    'abwarten und wenig korrigieren.',
  'correct.altitude-constant':
    'Die Höhe blieb gleich, während die Geschwindigkeit über Grund sich änderte: sinken, wo sie gegen ' +
    'den Wind fällt, steigen, wo sie mit ihm wächst, und der Pylon bleibt auf der Fläche.',
  'correct.altitude-high':
    'Über der Pivothöhe geflogen, darum wanderte der Pylon vor die Fläche: sinken, bis er bleibt, und ' +
    'dieses Bild halten.',
  'correct.altitude-low':
    'Unter der Pivothöhe geflogen, darum fiel der Pylon hinter die Fläche: steigen, bis er bleibt, ' +
    'und dieses Bild halten.',
  'correct.bank-constant':
    'Der Kreis blieb nicht um seinen Punkt: mehr Querlage mit Rückenwind, weniger mit Gegenwind, ' +
    'jeweils ein wenig bevor der Abstand sich ändert.',
  'correct.circle-too-small':
    'Die Querlage ging über sechzig Grad: einen weiteren Kreis fliegen, damit es auch mit Rückenwind ' +
    'darunter bleibt.',
  'correct.distance-wanders':
    'Der Abstand vom Punkt änderte sich: mehr Querlage, sobald er wächst, weniger, sobald er ' +
    'schrumpft, und überall dieselbe Fahrt.',
  'correct.power-not-idle':
    'In der Spirale stand Leistung: vor dem Einleiten in den Leerlauf, und nur Gas geben, um den ' +
    'Motor frei zu halten.',
  'correct.pylon-too-close':
    'Die Querlage war von Anfang an zu groß: die Kurve weiter weg vom Pylon beginnen. Der Abstand ' +
    'bestimmt die Querlage, die Geschwindigkeit über Grund die Höhe.',
  'correct.pylon-wanders':
    'Der Pylon blieb nicht auf der Fläche: ist er davor, sinken; dahinter, steigen; darüber oder ' +
    'darunter, die Querlage ändern. Nie mit dem Seitenruder.',
  'correct.too-few-turns':
    'Es waren weniger als drei Kreise: nach dem Anfangskurs zählen und hoch genug für drei beginnen.',
  'evidence.pivotal': 'Die Pivothöhe ging um {pivotal}, die Höhe um {height}',
  'evidence.wind': 'Der Wind war {speed} aus {from}',
  'change.turn-into-the-wind': 'In den Wind kurven',
  'change.allow-for-drift': 'Zwischen den Pylonen vorhalten',
  'change.one-distance-from-both': 'Von beiden gleich weit',
  'change.roll-in-later': 'Später einleiten',
  'change.roll-in-earlier': 'Früher einleiten',
  'correct.out-of-wind':
    'Die Kurve begann vom Wind weg: schräg mit dem Wind zu einem Punkt im Lee des Pylons fliegen, ' +
    'damit jede Kurve gegen den Wind beginnt.',
  'correct.drift-between':
    'Der Wind trug dich zwischen den Pylonen weg: auf dem geraden Stück die Nase in den Wind ' +
    'stellen, bis der Weg im selben Abstand am nächsten Pylon vorbeiführt.',
  'correct.pylons-uneven':
    'Der zweite Pylon war nicht so weit weg wie der erste: den Weg des geraden Stücks nach dem ' +
    'nächsten Pylon wählen, damit beide Kurven dieselbe Querlage haben.',
  'correct.rolled-in-before-pylon':
    'Die Querlage kam vor dem Pylon: warten, bis er knapp vor der Flächenspitze steht, dann ' +
    'einleiten, bis die Fläche auf ihn zeigt.',
  'correct.rolled-in-after-pylon':
    'Die Querlage kam nach dem Pylon: einleiten, solange er noch knapp vor der Flächenspitze steht.',
  'evidence.wind-out-of': '{speed} Wind kamen von der anderen Seite',
  'evidence.drift': '{speed} Wind kamen quer zur Linie zwischen den Pylonen',
};
