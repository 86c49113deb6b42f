// What the set-up page is answered, as the server writes it; go test -update writes this file.

import type { Guide, Probe } from '../static/setup.d.ts';

export const probe: Probe = {
  "name": "Seat 3",
  "address": "127.0.0.1:50123",
  "link": "live",
  "format": "text lines",
  "advice": "",
  "rate": 60,
  "channels": [
    "time",
    "heading",
    "pitch",
    "bank",
    "airspeed",
    "altitude"
  ],
  "derived": [
    "vertical-speed"
  ],
  "missing": [
    "ball"
  ],
  "maneuver": "wing-over",
  "auto": false,
  "aircraft": "turboprop-trainer",
  "prompts": "card",
  "session": "2026-01-02-a",
  "student": "Ada",
  "ended": "",
  "recording": "on",
  "recordingWords": "",
  "detail": "",
  "sure": "certain",
  "read": 0.998,
  "clock": "simulator",
  "jitter": 1.2,
  "age": 0.01,
  "datagrams": 1203,
  "samples": 1200,
  "paused": 0,
  "jumps": 0,
  "drops": {
    "late": 3
  },
  "signs": "",
  "values": [
    {
      "channel": "heading",
      "title": "heading",
      "unit": "°",
      "value": 90.1,
      "age": 0.01,
      "derived": false,
      "bad": 0
    },
    {
      "channel": "pitch",
      "title": "nose",
      "unit": "°",
      "value": 2.4,
      "age": 0.01,
      "derived": false,
      "bad": 0
    },
    {
      "channel": "bank",
      "title": "bank",
      "unit": "°",
      "value": -0.3,
      "age": 0.01,
      "derived": false,
      "bad": 0
    },
    {
      "channel": "vertical-speed",
      "title": "vertical speed",
      "unit": "ft/min",
      "value": 120,
      "age": 0.01,
      "derived": true,
      "bad": 0
    }
  ],
  "needs": [
    {
      "channel": "ball",
      "title": "ball",
      "state": "missing",
      "for": [
        "Ball most of the time"
      ],
      "setting": {
        "code": "setup.member",
        "args": {
          "name": "\"ball\"",
          "unit": "balls"
        },
        "text": "let the bridge add the member \"ball\" (balls) to every line."
      }
    },
    {
      "channel": "vertical-speed",
      "title": "vertical speed",
      "state": "derived",
      "for": [],
      "setting": ""
    },
    {
      "channel": "bank",
      "title": "bank",
      "state": "sent",
      "for": [],
      "setting": ""
    }
  ],
  "todo": [
    {
      "code": "setup.for",
      "args": {
        "channels": {
          "and": [
            "ball"
          ]
        },
        "setting": [
          {
            "code": "setup.member",
            "args": {
              "name": "\"ball\"",
              "unit": "balls"
            },
            "text": "let the bridge add the member \"ball\" (balls) to every line."
          }
        ]
      },
      "text": "For ball: let the bridge add the member \"ball\" (balls) to every line."
    }
  ]
};

export const guides: Guide[] = [
  {
    "name": "flightgear",
    "title": "FlightGear: the generic protocol",
    "port": "sends to HOST, UDP port 7181",
    "quality": "Every channel the cards need, the simulator's own clock, up to the rate of its pictures. Tried on a recorded 2020.3.",
    "files": [
      "flightgear/Protocol/halfturn.xml",
      "flightgear/Protocol/halfturn-pairs.xml",
      "flightgear/Protocol/halfturn-binary.xml"
    ],
    "steps": [
      "Write the files out: halfturn simulators copy DIR, DIR being a folder of your choice.",
      "Start Halfturn with: halfturn serve. It should run before the simulator does.",
      "Start the simulator with these two options, DIR written out in full: --data=DIR/flightgear --generic=socket,out,60,HOST,7181,udp,halfturn",
      "With the launcher, put the two options into its box Additional Settings instead.",
      "To add or take out values, use halfturn-pairs in place of halfturn: name=value pairs can be read whatever is among them. halfturn-binary is shorter on the wire."
    ],
    "check": "halfturn probe",
    "notes": "The folder Protocol must lie in the folder that --data names: one among the user's own settings is not searched, and the simulator then sends nothing and says nothing. The option --native-fdm=socket,out,60,HOST,7181,udp needs no file, and lacks throttle and clock."
  },
  {
    "name": "jsbsim",
    "title": "JSBSim: the output socket",
    "port": "sends to 127.0.0.1, UDP port 7181, as the file says",
    "quality": "Every channel the cards need, the simulator's own clock, 60 lines a second. Tried on recorded flights.",
    "files": [
      "jsbsim/halfturn.xml"
    ],
    "steps": [
      "Write the file out: halfturn simulators copy DIR",
      "In DIR/jsbsim/halfturn.xml change the name (the address) and the port of <output> when Halfturn runs elsewhere, and the line with engine-rpm to propulsion/engine/propeller-rpm or propulsion/engine/n1 by the engine.",
      "Start Halfturn first, with: halfturn serve. The line of labels is sent once, when the simulator opens the socket.",
      "Start the simulator with the option: --logdirectivefile=DIR/jsbsim/halfturn.xml"
    ],
    "check": "halfturn probe"
  }
];
