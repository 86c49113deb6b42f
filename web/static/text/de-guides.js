// How each simulator is set up, in German; the keys are those of configs/simulators/guides.toml.

const serve = 'Halfturn starten mit: halfturn serve';

/** @type {Readonly<Record<string, string>>} */
export const guides = {
  'X-Plane 11 and 12: Halfturn asks (nothing to switch on)': 'X-Plane 11 und 12: Halfturn fragt (nichts einzuschalten)',
  'Halfturn asks port 49000 of the simulator, and hears its beacon on 239.255.1.1 port 49707': 'Halfturn fragt Port 49000 des Simulators und hört sein Funkfeuer auf 239.255.1.1 Port 49707',
  'Every channel the maneuver cards need; the ball is worked out from the lateral load. 30 values a second unless the key rate under [subscribe] says another; never faster than the simulator draws pictures.': 'Jeder Kanal, den die Manöverkarten brauchen; die Kugel wird aus der seitlichen Last berechnet. 30 Werte je Sekunde, wenn der Schlüssel rate unter [subscribe] nichts anderes sagt; nie schneller, als der Simulator Bilder zeichnet.',
  'Start the simulator and load a flight.': 'Den Simulator starten und einen Flug laden.',
  'Start Halfturn with: halfturn serve --subscribe auto': `${serve} --subscribe auto`,
  'If it says that the beacon cannot be heard, or two simulators are there and you want one: halfturn serve --subscribe HOST, HOST being the simulator\'s machine (127.0.0.1 when it is this one).': 'Wenn es sagt, das Funkfeuer sei nicht zu hören, oder wenn zwei Simulatoren da sind und einer gemeint ist: halfturn serve --subscribe HOST; HOST ist der Rechner des Simulators (127.0.0.1, wenn es dieser ist).',
  'If a firewall asks whether the simulator may receive from the network, allow it.': 'Wenn eine Firewall fragt, ob der Simulator aus dem Netz empfangen darf, es erlauben.',
  'X-Plane 10 to 12: data output rows (DATA)': 'X-Plane 10 bis 12: Zeilen der Datenausgabe (DATA)',
  'sends to HOST, UDP port 7181': 'sendet an HOST, UDP-Port 7181',
  'Every channel the cards need, as 32-bit numbers, up to 60 a second; the ball is worked out from the lateral load. Version 9 and older number some rows differently and are not read rightly.': 'Jeder Kanal, den die Karten brauchen, als 32-Bit-Zahlen, bis zu 60 je Sekunde; die Kugel wird aus der seitlichen Last berechnet. Version 9 und ältere zählen manche Zeilen anders und werden nicht richtig gelesen.',
  'In the simulator open Settings, Data Output.': 'Im Simulator Settings, Data Output öffnen.',
  'Tick the box in the column of network output for these rows: 1 times, 3 speeds, 4 Mach/vertical speed/g load, 8 joystick, 16 angular velocities, 17 pitch/roll/headings, 18 angle of attack/side-slip, 20 latitude/longitude/altitude, 25 throttle command, 37 engine rpm, 38 propeller rpm, 41 N1. Without row 17 nothing works.': 'In der Spalte der Netzausgabe diese Zeilen ankreuzen: 1 times, 3 speeds, 4 Mach/vertical speed/g load, 8 joystick, 16 angular velocities, 17 pitch/roll/headings, 18 angle of attack/side-slip, 20 latitude/longitude/altitude, 25 throttle command, 37 engine rpm, 38 propeller rpm, 41 N1. Ohne Zeile 17 geht nichts.',
  'Tick Send network data output, and enter HOST as the IP address and 7181 as the port.': 'Send network data output ankreuzen, HOST als IP-Adresse und 7181 als Port eingeben.',
  'Move the slider of the network rate to 60 packets a second.': 'Den Regler der Netzrate auf 60 Pakete je Sekunde schieben.',
  'Start Halfturn with: halfturn serve. When it runs on another machine than the simulator: halfturn serve --udp :7181': `${serve}. Wenn es auf einem anderen Rechner läuft als der Simulator: halfturn serve --udp :7181`,
  'FlightGear: the generic protocol': 'FlightGear: das generic-Protokoll',
  'Every channel the cards need, the simulator\'s own clock, up to the rate of its pictures. Tried on a recorded 2020.3.': 'Jeder Kanal, den die Karten brauchen, die Uhr des Simulators, bis zur Rate seiner Bilder. Erprobt an einer Aufnahme von 2020.3.',
  'Write the files out: halfturn simulators copy DIR, DIR being a folder of your choice.': 'Die Dateien herausschreiben: halfturn simulators copy DIR; DIR ist ein Ordner nach Wahl.',
  'Start Halfturn with: halfturn serve. It should run before the simulator does.': `${serve}. Es sollte vor dem Simulator laufen.`,
  'Start the simulator with these two options, DIR written out in full: --data=DIR/flightgear --generic=socket,out,60,HOST,7181,udp,halfturn': 'Den Simulator mit diesen zwei Optionen starten, DIR ganz ausgeschrieben: --data=DIR/flightgear --generic=socket,out,60,HOST,7181,udp,halfturn',
  'With the launcher, put the two options into its box Additional Settings instead.': 'Mit dem Starter stattdessen die zwei Optionen in sein Feld Additional Settings schreiben.',
  'To add or take out values, use halfturn-pairs in place of halfturn: name=value pairs can be read whatever is among them. halfturn-binary is shorter on the wire.': 'Um Werte hinzuzufügen oder wegzulassen, halfturn-pairs statt halfturn verwenden: Paare Name=Wert sind lesbar, was immer dabei ist. halfturn-binary ist kürzer auf der Leitung.',
  'The folder Protocol must lie in the folder that --data names: one among the user\'s own settings is not searched, and the simulator then sends nothing and says nothing. The option --native-fdm=socket,out,60,HOST,7181,udp needs no file, and lacks throttle and clock.': 'Der Ordner Protocol muss in dem Ordner liegen, den --data nennt: einer unter den eigenen Einstellungen wird nicht durchsucht, und der Simulator sendet dann nichts und sagt nichts. Die Option --native-fdm=socket,out,60,HOST,7181,udp braucht keine Datei; ihr fehlen Gashebel und Uhr.',
  'JSBSim: the output socket': 'JSBSim: der Ausgabe-Socket', 'sends to 127.0.0.1, UDP port 7181, as the file says': 'sendet an 127.0.0.1, UDP-Port 7181, wie die Datei sagt',
  'Every channel the cards need, the simulator\'s own clock, 60 lines a second. Tried on recorded flights.': 'Jeder Kanal, den die Karten brauchen, die Uhr des Simulators, 60 Zeilen je Sekunde. Erprobt an aufgezeichneten Flügen.',
  'Write the file out: halfturn simulators copy DIR': 'Die Datei herausschreiben: halfturn simulators copy DIR',
  'In DIR/jsbsim/halfturn.xml change the name (the address) and the port of <output> when Halfturn runs elsewhere, and the line with engine-rpm to propulsion/engine/propeller-rpm or propulsion/engine/n1 by the engine.': 'In DIR/jsbsim/halfturn.xml den name (die Adresse) und den Port von <output> ändern, wenn Halfturn anderswo läuft, und die Zeile mit engine-rpm je nach Triebwerk auf propulsion/engine/propeller-rpm oder propulsion/engine/n1.',
  'Start Halfturn first, with: halfturn serve. The line of labels is sent once, when the simulator opens the socket.': 'Halfturn zuerst starten mit: halfturn serve. Die Zeile der Namen wird einmal gesendet, wenn der Simulator den Socket öffnet.',
  'Start the simulator with the option: --logdirectivefile=DIR/jsbsim/halfturn.xml': 'Den Simulator starten mit der Option: --logdirectivefile=DIR/jsbsim/halfturn.xml',
};
