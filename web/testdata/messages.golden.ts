// Every message as the server writes it; go test -update writes this file.
// The page's check reads it: what it says must fit static/types.d.ts.

import type { Message } from '../static/types.d.ts';

export const messages: Message[] = [
  {
    "type": "hello",
    "station": "",
    "version": 1,
    "server": "1.2.3",
    "stations": [],
    "info": null,
    "plan": null,
    "trace": null,
    "last": null,
    "lastPlan": null,
    "other": null,
    "series": null,
    "callouts": null,
    "run": "run",
    "frame": null
  },
  {
    "type": "hello",
    "station": "Seat 3",
    "seq": 1,
    "version": 1,
    "server": "1.2.3",
    "stations": [
      "Seat 3"
    ],
    "info": {
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
      "missing": [],
      "maneuver": "wing-over",
      "auto": false,
      "aircraft": "turboprop-trainer",
      "prompts": "card",
      "session": "2026-01-02-a",
      "student": "Ada",
      "ended": "",
      "recording": "on",
      "recordingWords": ""
    },
    "plan": null,
    "trace": null,
    "last": null,
    "lastPlan": null,
    "other": null,
    "series": null,
    "callouts": null,
    "run": "run",
    "frame": null
  },
  {
    "type": "station",
    "station": "Seat 3",
    "seq": 2,
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
    "missing": [],
    "maneuver": "wing-over",
    "auto": false,
    "aircraft": "turboprop-trainer",
    "prompts": "card",
    "session": "2026-01-02-a",
    "student": "Ada",
    "ended": "",
    "recording": "on",
    "recordingWords": ""
  },
  {
    "type": "plan",
    "station": "Seat 3",
    "seq": 3,
    "maneuver": "wing-over",
    "title": "Wing-over",
    "standard": "course",
    "aircraft": "generic turboprop trainer",
    "turn": 180,
    "legs": 2,
    "checkpoints": [
      {
        "turn": 45,
        "label": "45°",
        "words": "nose highest, bank half way",
        "want": {
          "code": "list.and-then",
          "args": {
            "first": [
              {
                "code": "aim.bank",
                "args": {
                  "bank": {
                    "value": 53,
                    "unit": "°"
                  }
                },
                "text": "bank 53°"
              }
            ],
            "rest": [
              {
                "code": "aim.nose-up",
                "args": {
                  "nose": {
                    "value": 17,
                    "unit": "°"
                  }
                },
                "text": "nose 17° up"
              }
            ]
          },
          "text": "bank 53°, nose 17° up"
        }
      },
      {
        "turn": 90,
        "label": "90°",
        "words": "steepest, nose on the horizon",
        "want": {
          "code": "list.and-then",
          "args": {
            "first": [
              {
                "code": "aim.bank",
                "args": {
                  "bank": {
                    "value": 75,
                    "unit": "°"
                  }
                },
                "text": "bank 75°"
              }
            ],
            "rest": [
              {
                "code": "list.and-then",
                "args": {
                  "first": [
                    {
                      "code": "aim.nose-level",
                      "text": "nose level"
                    }
                  ],
                  "rest": [
                    {
                      "code": "band.exactly",
                      "args": {
                        "value": {
                          "value": 112,
                          "unit": "kt"
                        }
                      },
                      "text": "112 kt"
                    }
                  ]
                },
                "text": "nose level, 112 kt"
              }
            ]
          },
          "text": "bank 75°, nose level, 112 kt"
        }
      },
      {
        "turn": 135,
        "label": "135°",
        "words": "rolling out, nose lowest",
        "want": {
          "code": "list.and-then",
          "args": {
            "first": [
              {
                "code": "aim.bank",
                "args": {
                  "bank": {
                    "value": 53,
                    "unit": "°"
                  }
                },
                "text": "bank 53°"
              }
            ],
            "rest": [
              {
                "code": "aim.nose-down",
                "args": {
                  "nose": {
                    "value": 17,
                    "unit": "°"
                  }
                },
                "text": "nose 17° down"
              }
            ]
          },
          "text": "bank 53°, nose 17° down"
        }
      },
      {
        "turn": 180,
        "label": "out",
        "words": "wings level, speed and height back",
        "want": {
          "code": "list.and-then",
          "args": {
            "first": [
              {
                "code": "aim.level",
                "text": "wings level"
              }
            ],
            "rest": [
              {
                "code": "band.exactly",
                "args": {
                  "value": {
                    "value": 155,
                    "unit": "kt"
                  }
                },
                "text": "155 kt"
              }
            ]
          },
          "text": "wings level, 155 kt"
        }
      }
    ],
    "lanes": [
      {
        "channel": "bank",
        "title": {
          "code": "label.bank",
          "text": "Bank"
        },
        "unit": "°",
        "low": 0,
        "high": 90,
        "ticks": [
          0,
          45,
          90
        ],
        "corridor": [
          {
            "turn": 0,
            "low": -4,
            "aim": 0,
            "high": 4
          },
          {
            "turn": 3,
            "low": -0.650498800451595,
            "aim": 3.925196718220787,
            "high": 8.500892236893169
          }
        ]
      },
      {
        "channel": "pitch",
        "title": {
          "code": "label.nose",
          "text": "Nose"
        },
        "unit": "°",
        "low": -25,
        "high": 25,
        "ticks": [
          -20,
          0,
          20
        ],
        "corridor": [
          {
            "turn": 0,
            "low": -4,
            "aim": 0,
            "high": 4
          },
          {
            "turn": 3,
            "low": -2.223016124449891,
            "aim": 1.7769838755501088,
            "high": 5.776983875550108
          }
        ]
      },
      {
        "channel": "airspeed",
        "title": {
          "code": "label.speed",
          "text": "Speed"
        },
        "unit": "kt",
        "low": 100,
        "high": 165,
        "ticks": [
          110,
          150
        ],
        "corridor": [
          {
            "turn": 0,
            "low": 148,
            "aim": 155,
            "high": 162
          },
          {
            "turn": 3,
            "low": 145.74955388155342,
            "aim": 152.74955388155342,
            "high": 159.74955388155342
          }
        ]
      },
      {
        "channel": "height",
        "title": {
          "code": "label.height",
          "text": "Height"
        },
        "unit": "ft",
        "low": -50,
        "high": 700,
        "ticks": [
          0,
          600
        ],
        "corridor": [
          {
            "turn": 0,
            "low": -60,
            "aim": 0,
            "high": 60
          },
          {
            "turn": 3,
            "low": -59.926647297770316,
            "aim": 1.6434313895179988,
            "high": 63.213510076806315
          }
        ]
      }
    ],
    "cautions": [
      "Clear the area before every leg.",
      "Stop at the hard deck."
    ],
    "warnings": null
  },
  {
    "type": "session",
    "station": "Seat 3",
    "seq": 4,
    "id": "2026-01-02-a",
    "state": "began",
    "legs": 0
  },
  {
    "type": "act",
    "station": "Seat 3",
    "act": "mute"
  },
  {
    "type": "mark",
    "station": "Seat 3",
    "seq": 5,
    "id": "01J",
    "by": {
      "name": "Mo Example"
    },
    "at": "2026-01-02T03:04:05Z",
    "time": 11.5,
    "turn": 45,
    "words": "Late with the foot"
  },
  {
    "type": "mark",
    "station": "Seat 3",
    "seq": 6,
    "id": "01K",
    "by": {
      "name": "Mo Example"
    },
    "at": "2026-01-02T03:04:05Z",
    "time": 11.5,
    "turn": null,
    "words": ""
  },
  {
    "type": "acted",
    "station": "Seat 3",
    "seq": 7,
    "id": "01L",
    "command": "choose",
    "by": {
      "name": "Mo Example"
    },
    "at": "2026-01-02T03:04:05Z",
    "choice": {
      "maneuver": "wing-over",
      "standard": "course",
      "aircraft": "turboprop-trainer"
    }
  },
  {
    "type": "hole",
    "station": "Seat 3",
    "seq": 8,
    "time": 11.5,
    "own": 0,
    "shared": 57,
    "words": {
      "code": "hole.shared",
      "args": {
        "time": {
          "value": 12,
          "unit": "s"
        },
        "shared": {
          "value": 57
        }
      },
      "text": "Datagrams that this machine lost around 12 s into the session, of this station or of others: 57. They came faster than it read them."
    }
  },
  {
    "type": "handover",
    "station": "Seat 3",
    "seq": 9,
    "by": {
      "name": "Mo Example"
    },
    "shown": "Demonstration",
    "choice": {
      "maneuver": "wing-over",
      "standard": "course",
      "aircraft": "turboprop-trainer"
    }
  },
  {
    "type": "setup",
    "station": "Seat 3",
    "seq": 10,
    "time": 5,
    "ready": true,
    "gates": [
      {
        "id": "wings-level",
        "label": {
          "code": "label.wings-level",
          "text": "Wings level"
        },
        "want": {
          "code": "want.within",
          "args": {
            "value": {
              "value": 5,
              "unit": "°"
            }
          },
          "text": "within 5°"
        },
        "value": 0.6,
        "unit": "°",
        "ok": true
      },
      {
        "id": "height-held",
        "label": {
          "code": "label.height-held",
          "text": "Height held"
        },
        "want": {
          "code": "want.within",
          "args": {
            "value": {
              "value": 300,
              "unit": "ft/min"
            }
          },
          "text": "within 300 ft/min"
        },
        "value": -40,
        "unit": "ft/min",
        "ok": true
      },
      {
        "id": "entry-speed",
        "label": {
          "code": "label.entry-speed",
          "text": "Entry speed"
        },
        "want": {
          "code": "want.speed",
          "args": {
            "speed": {
              "value": 155,
              "unit": "kt"
            },
            "within": {
              "value": 5,
              "unit": "kt"
            }
          },
          "text": "155 kt, within 5 kt"
        },
        "value": 155,
        "unit": "kt",
        "ok": true
      },
      {
        "id": "ball",
        "label": {
          "code": "label.ball",
          "text": "Ball centered"
        },
        "want": {
          "code": "want.ball",
          "args": {
            "value": {
              "value": 0.25,
              "digits": 2
            }
          },
          "text": "within 0.25 of a ball"
        },
        "value": null,
        "unit": "balls",
        "ok": true
      },
      {
        "id": "hard-deck",
        "label": {
          "code": "label.hard-deck",
          "text": "Above the hard deck"
        },
        "want": {
          "code": "band.at-least",
          "args": {
            "low": {
              "value": 1500,
              "unit": "ft"
            }
          },
          "text": "at least 1500 ft"
        },
        "value": 3500,
        "unit": "ft",
        "ok": true
      },
      {
        "id": "clearing-turns",
        "label": {
          "code": "label.clearing-turns",
          "text": "Clearing turns"
        },
        "want": {
          "code": "want.clearing",
          "args": {
            "around": {
              "value": 180,
              "unit": "°"
            },
            "side": {
              "value": 90,
              "unit": "°"
            }
          },
          "text": "180° of turn, or 90° each way"
        },
        "value": 185,
        "unit": "°",
        "ok": true,
        "optional": true
      },
      {
        "id": "on-the-line",
        "label": {
          "code": "label.on-the-line",
          "text": "On the line"
        },
        "want": {
          "code": "want.line",
          "args": {
            "value": {
              "value": 5,
              "unit": "°"
            },
            "heading": "090°"
          },
          "text": "within 5° of 090°"
        },
        "value": 0.4,
        "unit": "°",
        "ok": true
      }
    ]
  },
  {
    "type": "phase",
    "station": "Seat 3",
    "seq": 11,
    "time": 10,
    "phase": "up",
    "turn": 0,
    "direction": "right"
  },
  {
    "type": "callout",
    "station": "Seat 3",
    "seq": 12,
    "time": 12,
    "kind": "cue",
    "id": "at-45",
    "words": "Nose high at forty-five",
    "tone": "",
    "turn": 28,
    "to": 45,
    "due": 14.04
  },
  {
    "type": "callout",
    "station": "Seat 3",
    "seq": 13,
    "time": 12,
    "kind": "after",
    "id": "bank-at-45",
    "words": "",
    "tone": "met",
    "turn": 45
  },
  {
    "type": "callout",
    "station": "Seat 3",
    "seq": 14,
    "time": 12,
    "kind": "safety",
    "id": "hard-deck",
    "words": "Hard deck, climb",
    "tone": "safety",
    "turn": 0
  },
  {
    "type": "callout",
    "station": "Seat 3",
    "seq": 15,
    "time": 12,
    "kind": "clear",
    "id": "hard-deck",
    "words": "",
    "tone": "",
    "turn": 0
  },
  {
    "type": "callout",
    "station": "Seat 3",
    "seq": 16,
    "time": 12,
    "kind": "said",
    "id": "said",
    "words": "Eyes outside",
    "by": "Mo Example",
    "tone": "",
    "turn": 0
  },
  {
    "type": "callout",
    "station": "Seat 3",
    "seq": 17,
    "time": 12,
    "kind": "result",
    "id": "leg",
    "words": "Near",
    "tone": "missed",
    "turn": 0
  },
  {
    "type": "leg",
    "station": "Seat 3",
    "seq": 18,
    "number": 1,
    "direction": "right",
    "outcome": "finished",
    "reason": "",
    "start": 10,
    "end": 35,
    "entry": {
      "airspeed": 155.00000021609728,
      "altitude": 5000,
      "bank": -4.321945677748865e-7,
      "pitch": 0,
      "time": 10,
      "turn": 0
    },
    "points": [
      {
        "airspeed": 124.68297651854994,
        "altitude": 5300,
        "bank": 52.855872369848115,
        "pitch": 17,
        "time": 15.625,
        "turn": 45
      },
      {
        "airspeed": 120.43004154881231,
        "altitude": 5600,
        "bank": 58.13991690237536,
        "pitch": 2.0818995585504975e-15,
        "time": 21.25,
        "turn": 90
      },
      {
        "airspeed": 124.78074851082667,
        "altitude": 5300,
        "bank": 52.66032838529462,
        "pitch": -17,
        "time": 26.875,
        "turn": 135
      }
    ],
    "exit": {
      "airspeed": 153.9494179244892,
      "altitude": 5000.35815879757,
      "bank": 1.8324101913423851,
      "pitch": -0.8304460865254383,
      "time": 35,
      "turn": 178.6
    },
    "checks": [
      {
        "id": "bank-at-45",
        "label": "Bank at 45°",
        "kind": "value",
        "channel": "bank",
        "turn": 45,
        "value": 51,
        "unit": "°",
        "aim": 53,
        "met": [
          43,
          63
        ],
        "near": [
          38,
          68
        ],
        "weight": 1,
        "verdict": "met",
        "score": 100,
        "words": "",
        "post": 45
      },
      {
        "id": "bank-at-90",
        "label": "Bank at 90°",
        "kind": "value",
        "channel": "bank",
        "turn": 90,
        "value": 58,
        "unit": "°",
        "aim": 75,
        "met": [
          65,
          85
        ],
        "near": [
          60,
          90
        ],
        "weight": 2,
        "verdict": "missed",
        "score": 35,
        "words": "Too little bank at 90°: keep rolling.",
        "post": 90
      },
      {
        "id": "airspeed-at-90",
        "label": "Speed at 90°",
        "kind": "value",
        "channel": "airspeed",
        "turn": 90,
        "value": 120.5,
        "unit": "kt",
        "aim": 112,
        "met": [
          107,
          117
        ],
        "near": [
          102,
          122
        ],
        "weight": 1,
        "verdict": "near",
        "score": 70,
        "words": "8 kt fast: pull a little more in the first 45°.",
        "post": 90
      },
      {
        "id": "pitch-at-135",
        "label": "Nose at 135°",
        "kind": "value",
        "channel": "pitch",
        "turn": 135,
        "value": -16,
        "unit": "°",
        "aim": -17,
        "met": [
          -21,
          -13
        ],
        "near": [
          -24,
          -10
        ],
        "weight": 1,
        "verdict": "met",
        "score": 100,
        "words": "",
        "post": 135
      },
      {
        "id": "height-change",
        "label": "Height, entry to exit",
        "kind": "change",
        "channel": "altitude",
        "at": 178.6,
        "value": -60,
        "unit": "ft",
        "aim": 0,
        "met": [
          -100,
          100
        ],
        "near": [
          -150,
          150
        ],
        "weight": 1,
        "verdict": "met",
        "score": 100,
        "words": "",
        "post": 180
      },
      {
        "id": "exit-turn",
        "label": "Turn at the exit",
        "kind": "value",
        "channel": "turn",
        "at": 178.6,
        "value": 178.6,
        "unit": "°",
        "aim": 180,
        "met": [
          170,
          190
        ],
        "near": [
          165,
          195
        ],
        "weight": 1,
        "verdict": "met",
        "score": 100,
        "words": "",
        "post": 180
      },
      {
        "id": "coordination",
        "label": "Ball in the middle",
        "kind": "share",
        "channel": "ball",
        "value": null,
        "unit": "%",
        "met": [
          null,
          null
        ],
        "near": [
          null,
          null
        ],
        "weight": 1,
        "verdict": "not-measured",
        "score": 0,
        "words": "",
        "reason": {
          "code": "none.lacks",
          "args": {
            "what": [
              "ball"
            ]
          },
          "text": "the stream has no ball"
        }
      }
    ],
    "posts": [
      {
        "turn": 45,
        "verdict": "met"
      },
      {
        "turn": 90,
        "verdict": "missed"
      },
      {
        "turn": 135,
        "verdict": "met"
      },
      {
        "turn": 180,
        "verdict": "met"
      },
      {
        "turn": null,
        "verdict": "not-measured"
      }
    ],
    "causes": [
      {
        "id": "underbanked",
        "leg": 0,
        "share": 0.7,
        "evidence": {
          "code": "evidence.bank-went",
          "args": {
            "from": {
              "value": 25,
              "unit": "°"
            },
            "start": {
              "value": 25,
              "unit": "°"
            },
            "to": {
              "value": 58,
              "unit": "°"
            },
            "end": {
              "value": 85,
              "unit": "°"
            }
          },
          "text": "Bank went from 25° at 25° of turn to 58° at 85°"
        },
        "advice": {
          "code": "correct.underbanked",
          "text": "There was too little bank: keep rolling slowly all the way to the steepest point, and let the nose come round."
        }
      }
    ],
    "change": {
      "code": "change.keep-rolling-to-ninety",
      "text": "Keep rolling to ninety"
    },
    "verdict": "missed",
    "score": 70.5,
    "grade": "fair",
    "headline": {
      "code": "head.unmeasured",
      "args": {
        "headline": [
          {
            "code": "head.not-yet",
            "args": {
              "what": [
                "Bank at 90°"
              ],
              "within": [
                {
                  "code": "head.count",
                  "args": {
                    "met": {
                      "value": 4
                    },
                    "of": {
                      "value": 6
                    }
                  },
                  "text": "4 of 6 within limits"
                }
              ]
            },
            "text": "Not yet: Bank at 90°; 4 of 6 within limits"
          }
        ],
        "none": {
          "value": 1
        },
        "all": {
          "value": 7
        }
      },
      "text": "Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured"
    },
    "corrections": 0,
    "trace": [
      {
        "turn": 0,
        "time": 10,
        "bank": -4.321945677748865e-7,
        "pitch": 0,
        "airspeed": 155.00000021609728,
        "height": 0,
        "along": 0,
        "across": 0
      },
      {
        "turn": 1,
        "time": 10.12,
        "bank": 1.3089298520049724,
        "pitch": 0.5932914439425164,
        "airspeed": null,
        "height": null,
        "along": 41.88577544948043,
        "across": 0.365531624660953
      }
    ]
  },
  {
    "type": "leg",
    "station": "Seat 3",
    "seq": 19,
    "number": 2,
    "direction": "left",
    "outcome": "broken-off",
    "reason": "the turn stopped short",
    "start": 0,
    "end": 0,
    "entry": {
      "time": 0,
      "turn": 0
    },
    "points": null,
    "exit": null,
    "checks": null,
    "causes": null,
    "change": "",
    "verdict": "not-measured",
    "score": 0,
    "grade": "",
    "corrections": 0
  },
  {
    "type": "series",
    "station": "Seat 3",
    "seq": 20,
    "maneuver": "wing-over",
    "standard": "course standard",
    "aircraft": "generic turboprop trainer",
    "verdict": "missed",
    "score": 70.5,
    "grade": "fair",
    "headline": {
      "code": "head.of-leg",
      "args": {
        "leg": {
          "value": 1
        },
        "headline": [
          {
            "code": "head.unmeasured",
            "args": {
              "headline": [
                {
                  "code": "head.not-yet",
                  "args": {
                    "what": [
                      "Bank at 90°"
                    ],
                    "within": [
                      {
                        "code": "head.count",
                        "args": {
                          "met": {
                            "value": 4
                          },
                          "of": {
                            "value": 6
                          }
                        },
                        "text": "4 of 6 within limits"
                      }
                    ]
                  },
                  "text": "Not yet: Bank at 90°; 4 of 6 within limits"
                }
              ],
              "none": {
                "value": 1
              },
              "all": {
                "value": 7
              }
            },
            "text": "Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured"
          }
        ]
      },
      "text": "Leg 1: Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured"
    },
    "checks": [],
    "causes": null,
    "change": "",
    "legs": [
      {
        "number": 1,
        "direction": "right",
        "outcome": "finished",
        "reason": "",
        "start": 10,
        "end": 35,
        "entry": {
          "airspeed": 155.00000021609728,
          "altitude": 5000,
          "bank": -4.321945677748865e-7,
          "pitch": 0,
          "time": 10,
          "turn": 0
        },
        "points": [
          {
            "airspeed": 124.68297651854994,
            "altitude": 5300,
            "bank": 52.855872369848115,
            "pitch": 17,
            "time": 15.625,
            "turn": 45
          },
          {
            "airspeed": 120.43004154881231,
            "altitude": 5600,
            "bank": 58.13991690237536,
            "pitch": 2.0818995585504975e-15,
            "time": 21.25,
            "turn": 90
          },
          {
            "airspeed": 124.78074851082667,
            "altitude": 5300,
            "bank": 52.66032838529462,
            "pitch": -17,
            "time": 26.875,
            "turn": 135
          }
        ],
        "exit": {
          "airspeed": 153.9494179244892,
          "altitude": 5000.35815879757,
          "bank": 1.8324101913423851,
          "pitch": -0.8304460865254383,
          "time": 35,
          "turn": 178.6
        },
        "checks": [
          {
            "id": "bank-at-45",
            "label": "Bank at 45°",
            "kind": "value",
            "channel": "bank",
            "turn": 45,
            "value": 51,
            "unit": "°",
            "aim": 53,
            "met": [
              43,
              63
            ],
            "near": [
              38,
              68
            ],
            "weight": 1,
            "verdict": "met",
            "score": 100,
            "words": "",
            "post": 45
          },
          {
            "id": "bank-at-90",
            "label": "Bank at 90°",
            "kind": "value",
            "channel": "bank",
            "turn": 90,
            "value": 58,
            "unit": "°",
            "aim": 75,
            "met": [
              65,
              85
            ],
            "near": [
              60,
              90
            ],
            "weight": 2,
            "verdict": "missed",
            "score": 35,
            "words": "Too little bank at 90°: keep rolling.",
            "post": 90
          },
          {
            "id": "airspeed-at-90",
            "label": "Speed at 90°",
            "kind": "value",
            "channel": "airspeed",
            "turn": 90,
            "value": 120.5,
            "unit": "kt",
            "aim": 112,
            "met": [
              107,
              117
            ],
            "near": [
              102,
              122
            ],
            "weight": 1,
            "verdict": "near",
            "score": 70,
            "words": "8 kt fast: pull a little more in the first 45°.",
            "post": 90
          },
          {
            "id": "pitch-at-135",
            "label": "Nose at 135°",
            "kind": "value",
            "channel": "pitch",
            "turn": 135,
            "value": -16,
            "unit": "°",
            "aim": -17,
            "met": [
              -21,
              -13
            ],
            "near": [
              -24,
              -10
            ],
            "weight": 1,
            "verdict": "met",
            "score": 100,
            "words": "",
            "post": 135
          },
          {
            "id": "height-change",
            "label": "Height, entry to exit",
            "kind": "change",
            "channel": "altitude",
            "at": 178.6,
            "value": -60,
            "unit": "ft",
            "aim": 0,
            "met": [
              -100,
              100
            ],
            "near": [
              -150,
              150
            ],
            "weight": 1,
            "verdict": "met",
            "score": 100,
            "words": "",
            "post": 180
          },
          {
            "id": "exit-turn",
            "label": "Turn at the exit",
            "kind": "value",
            "channel": "turn",
            "at": 178.6,
            "value": 178.6,
            "unit": "°",
            "aim": 180,
            "met": [
              170,
              190
            ],
            "near": [
              165,
              195
            ],
            "weight": 1,
            "verdict": "met",
            "score": 100,
            "words": "",
            "post": 180
          },
          {
            "id": "coordination",
            "label": "Ball in the middle",
            "kind": "share",
            "channel": "ball",
            "value": null,
            "unit": "%",
            "met": [
              null,
              null
            ],
            "near": [
              null,
              null
            ],
            "weight": 1,
            "verdict": "not-measured",
            "score": 0,
            "words": "",
            "reason": {
              "code": "none.lacks",
              "args": {
                "what": [
                  "ball"
                ]
              },
              "text": "the stream has no ball"
            }
          }
        ],
        "posts": [
          {
            "turn": 45,
            "verdict": "met"
          },
          {
            "turn": 90,
            "verdict": "missed"
          },
          {
            "turn": 135,
            "verdict": "met"
          },
          {
            "turn": 180,
            "verdict": "met"
          },
          {
            "turn": null,
            "verdict": "not-measured"
          }
        ],
        "causes": [
          {
            "id": "underbanked",
            "leg": 0,
            "share": 0.7,
            "evidence": {
              "code": "evidence.bank-went",
              "args": {
                "from": {
                  "value": 25,
                  "unit": "°"
                },
                "start": {
                  "value": 25,
                  "unit": "°"
                },
                "to": {
                  "value": 58,
                  "unit": "°"
                },
                "end": {
                  "value": 85,
                  "unit": "°"
                }
              },
              "text": "Bank went from 25° at 25° of turn to 58° at 85°"
            },
            "advice": {
              "code": "correct.underbanked",
              "text": "There was too little bank: keep rolling slowly all the way to the steepest point, and let the nose come round."
            }
          }
        ],
        "change": {
          "code": "change.keep-rolling-to-ninety",
          "text": "Keep rolling to ninety"
        },
        "verdict": "missed",
        "score": 70.5,
        "grade": "fair",
        "headline": {
          "code": "head.unmeasured",
          "args": {
            "headline": [
              {
                "code": "head.not-yet",
                "args": {
                  "what": [
                    "Bank at 90°"
                  ],
                  "within": [
                    {
                      "code": "head.count",
                      "args": {
                        "met": {
                          "value": 4
                        },
                        "of": {
                          "value": 6
                        }
                      },
                      "text": "4 of 6 within limits"
                    }
                  ]
                },
                "text": "Not yet: Bank at 90°; 4 of 6 within limits"
              }
            ],
            "none": {
              "value": 1
            },
            "all": {
              "value": 7
            }
          },
          "text": "Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured"
        },
        "corrections": 0
      }
    ]
  },
  {
    "type": "frame",
    "station": "Seat 3",
    "time": 12,
    "state": "leg",
    "direction": "right",
    "turn": 3,
    "phase": "up",
    "values": {
      "airspeed": 152.74955388155342,
      "altitude": 5001.643431389518,
      "ball": 0.1,
      "bank": 3.925196718220787,
      "normal-load": 1.2,
      "pitch": 1.7769838755501088
    },
    "climb": 1.6434313895179988,
    "stall": 77.74955388155342,
    "deck": 3501.643431389518,
    "point": 87.2369093695091,
    "pointBy": "position",
    "pointDistance": 4.999501419537935,
    "ground": {
      "along": 125.60629498306518,
      "across": 3.2891165890228002,
      "track": 97,
      "drift": 4,
      "wind": {
        "from": 10,
        "speed": 12
      }
    },
    "line": {
      "heading": 90,
      "side": "right",
      "distance": null,
      "off": 3
    },
    "next": {
      "turn": 45,
      "label": "45°",
      "words": "nose highest, bank half way",
      "want": {
        "code": "list.and-then",
        "args": {
          "first": [
            {
              "code": "aim.bank",
              "args": {
                "bank": {
                  "value": 53,
                  "unit": "°"
                }
              },
              "text": "bank 53°"
            }
          ],
          "rest": [
            {
              "code": "aim.nose-up",
              "args": {
                "nose": {
                  "value": 17,
                  "unit": "°"
                }
              },
              "text": "nose 17° up"
            }
          ]
        },
        "text": "bank 53°, nose 17° up"
      },
      "seconds": 5.04,
      "point": 45
    },
    "cues": null,
    "gates": null,
    "ready": false,
    "unclear": false,
    "awaited": null
  },
  {
    "type": "wall",
    "station": "",
    "run": "run",
    "mark": 16,
    "time": 1,
    "names": [
      "Seat 3"
    ],
    "sheets": [
      {
        "name": "Seat 3",
        "plan": {
          "maneuver": "wing-over",
          "title": "Wing-over",
          "turn": 180,
          "legs": 2,
          "posts": [
            {
              "turn": 45,
              "label": "45°"
            },
            {
              "turn": 90,
              "label": "90°"
            },
            {
              "turn": 135,
              "label": "135°"
            },
            {
              "turn": 180,
              "label": "out"
            }
          ],
          "lanes": [
            {
              "channel": "bank",
              "unit": "°",
              "low": 0,
              "high": 90,
              "corridor": [
                [
                  0,
                  -4,
                  4
                ],
                [
                  3,
                  -0.650498800451595,
                  8.500892236893169
                ]
              ]
            },
            {
              "channel": "pitch",
              "unit": "°",
              "low": -25,
              "high": 25,
              "corridor": [
                [
                  0,
                  -4,
                  4
                ],
                [
                  3,
                  -2.223016124449891,
                  5.776983875550108
                ]
              ]
            },
            {
              "channel": "airspeed",
              "unit": "kt",
              "low": 100,
              "high": 165,
              "corridor": [
                [
                  0,
                  148,
                  162
                ],
                [
                  3,
                  145.74955388155342,
                  159.74955388155342
                ]
              ]
            },
            {
              "channel": "height",
              "unit": "ft",
              "low": -50,
              "high": 700,
              "corridor": [
                [
                  0,
                  -60,
                  60
                ],
                [
                  3,
                  -59.926647297770316,
                  63.213510076806315
                ]
              ]
            }
          ]
        },
        "info": {
          "student": "Ada",
          "link": "live",
          "since": 1,
          "rate": 60,
          "advice": "",
          "recording": "on",
          "session": "2026-01-02-a",
          "auto": false
        },
        "last": {
          "number": 2,
          "direction": "left",
          "outcome": "broken-off",
          "verdict": "not-measured",
          "score": 0,
          "headline": "",
          "posts": null
        },
        "stage": {
          "state": "leg",
          "direction": "right",
          "phase": "up",
          "ready": false,
          "unclear": false,
          "awaited": false,
          "holds": "",
          "gate": ""
        },
        "trace": [
          [
            3,
            3.9,
            1.8,
            152.7,
            1.6
          ]
        ],
        "said": [
          {
            "time": 12,
            "kind": "cue",
            "id": "at-45",
            "words": "Nose high at forty-five",
            "tone": "",
            "turn": 28,
            "to": 45,
            "due": 14.04
          },
          {
            "time": 12,
            "kind": "after",
            "id": "bank-at-45",
            "words": "",
            "tone": "met",
            "turn": 45
          },
          {
            "time": 12,
            "kind": "safety",
            "id": "hard-deck",
            "words": "Hard deck, climb",
            "tone": "safety",
            "turn": 0
          },
          {
            "time": 12,
            "kind": "clear",
            "id": "hard-deck",
            "words": "",
            "tone": "",
            "turn": 0
          },
          {
            "time": 12,
            "kind": "said",
            "id": "said",
            "words": "Eyes outside",
            "by": "Mo Example",
            "tone": "",
            "turn": 0
          },
          {
            "time": 12,
            "kind": "result",
            "id": "leg",
            "words": "Near",
            "tone": "missed",
            "turn": 0
          }
        ],
        "now": {
          "turn": 3,
          "lanes": [
            3.9,
            1.8,
            152.7,
            1.6
          ]
        },
        "ticks": "-------------------9999059"
      }
    ]
  },
  {
    "type": "frame",
    "station": "Seat 3",
    "time": 31,
    "state": "leg",
    "direction": "right",
    "turn": 4,
    "phase": "up",
    "values": {
      "airspeed": 152.00047162900262,
      "altitude": 5002.919579377529,
      "ball": 0.1,
      "bank": 5.231735530809398,
      "normal-load": 1.2,
      "pitch": 2.3659427163211126
    },
    "climb": 2.9195793775289056,
    "stall": 77.00047162900262,
    "deck": 3502.919579377529,
    "point": 86.3157920769342,
    "pointBy": "position",
    "pointDistance": 4.999113757873528,
    "ground": {
      "along": 167.41553698590073,
      "across": 5.846279376421926,
      "track": 98,
      "drift": 4,
      "wind": {
        "from": 10,
        "speed": 12
      }
    },
    "line": {
      "heading": 90,
      "side": "right",
      "distance": null,
      "off": 4
    },
    "next": {
      "turn": 45,
      "label": "45°",
      "words": "nose highest, bank half way",
      "want": {
        "code": "list.and-then",
        "args": {
          "first": [
            {
              "code": "aim.bank",
              "args": {
                "bank": {
                  "value": 53,
                  "unit": "°"
                }
              },
              "text": "bank 53°"
            }
          ],
          "rest": [
            {
              "code": "aim.nose-up",
              "args": {
                "nose": {
                  "value": 17,
                  "unit": "°"
                }
              },
              "text": "nose 17° up"
            }
          ]
        },
        "text": "bank 53°, nose 17° up"
      },
      "seconds": 4.92,
      "point": 45
    },
    "cues": null,
    "gates": null,
    "ready": false,
    "unclear": false,
    "awaited": null
  },
  {
    "type": "callout",
    "station": "Seat 3",
    "seq": 21,
    "time": 31,
    "kind": "cue",
    "id": "",
    "words": "now",
    "tone": "",
    "turn": 0
  },
  {
    "type": "wall",
    "station": "",
    "run": "run",
    "mark": 21,
    "time": 1,
    "names": null,
    "sheets": [
      {
        "name": "Seat 3",
        "stage": {
          "state": "leg",
          "direction": "right",
          "phase": "up",
          "ready": false,
          "unclear": false,
          "awaited": false,
          "holds": "",
          "gate": ""
        },
        "trace": [
          [
            4,
            5.2,
            2.4,
            152,
            2.9
          ]
        ],
        "said": [
          {
            "time": 31,
            "kind": "cue",
            "id": "",
            "words": "now",
            "tone": "",
            "turn": 0
          }
        ],
        "now": {
          "turn": 4,
          "lanes": [
            5.2,
            2.4,
            152,
            2.9
          ]
        },
        "ticks": "-------------------9999059"
      }
    ]
  },
  {
    "type": "hello",
    "station": "Seat 3",
    "seq": 21,
    "version": 1,
    "server": "1.2.3",
    "stations": [
      "Seat 3"
    ],
    "info": {
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
      "missing": [],
      "maneuver": "wing-over",
      "auto": false,
      "aircraft": "turboprop-trainer",
      "prompts": "card",
      "session": "2026-01-02-a",
      "student": "Ada",
      "ended": "",
      "recording": "on",
      "recordingWords": ""
    },
    "plan": {
      "maneuver": "wing-over",
      "title": "Wing-over",
      "standard": "course",
      "aircraft": "generic turboprop trainer",
      "turn": 180,
      "legs": 2,
      "checkpoints": [
        {
          "turn": 45,
          "label": "45°",
          "words": "nose highest, bank half way",
          "want": {
            "code": "list.and-then",
            "args": {
              "first": [
                {
                  "code": "aim.bank",
                  "args": {
                    "bank": {
                      "value": 53,
                      "unit": "°"
                    }
                  },
                  "text": "bank 53°"
                }
              ],
              "rest": [
                {
                  "code": "aim.nose-up",
                  "args": {
                    "nose": {
                      "value": 17,
                      "unit": "°"
                    }
                  },
                  "text": "nose 17° up"
                }
              ]
            },
            "text": "bank 53°, nose 17° up"
          }
        },
        {
          "turn": 90,
          "label": "90°",
          "words": "steepest, nose on the horizon",
          "want": {
            "code": "list.and-then",
            "args": {
              "first": [
                {
                  "code": "aim.bank",
                  "args": {
                    "bank": {
                      "value": 75,
                      "unit": "°"
                    }
                  },
                  "text": "bank 75°"
                }
              ],
              "rest": [
                {
                  "code": "list.and-then",
                  "args": {
                    "first": [
                      {
                        "code": "aim.nose-level",
                        "text": "nose level"
                      }
                    ],
                    "rest": [
                      {
                        "code": "band.exactly",
                        "args": {
                          "value": {
                            "value": 112,
                            "unit": "kt"
                          }
                        },
                        "text": "112 kt"
                      }
                    ]
                  },
                  "text": "nose level, 112 kt"
                }
              ]
            },
            "text": "bank 75°, nose level, 112 kt"
          }
        },
        {
          "turn": 135,
          "label": "135°",
          "words": "rolling out, nose lowest",
          "want": {
            "code": "list.and-then",
            "args": {
              "first": [
                {
                  "code": "aim.bank",
                  "args": {
                    "bank": {
                      "value": 53,
                      "unit": "°"
                    }
                  },
                  "text": "bank 53°"
                }
              ],
              "rest": [
                {
                  "code": "aim.nose-down",
                  "args": {
                    "nose": {
                      "value": 17,
                      "unit": "°"
                    }
                  },
                  "text": "nose 17° down"
                }
              ]
            },
            "text": "bank 53°, nose 17° down"
          }
        },
        {
          "turn": 180,
          "label": "out",
          "words": "wings level, speed and height back",
          "want": {
            "code": "list.and-then",
            "args": {
              "first": [
                {
                  "code": "aim.level",
                  "text": "wings level"
                }
              ],
              "rest": [
                {
                  "code": "band.exactly",
                  "args": {
                    "value": {
                      "value": 155,
                      "unit": "kt"
                    }
                  },
                  "text": "155 kt"
                }
              ]
            },
            "text": "wings level, 155 kt"
          }
        }
      ],
      "lanes": [
        {
          "channel": "bank",
          "title": {
            "code": "label.bank",
            "text": "Bank"
          },
          "unit": "°",
          "low": 0,
          "high": 90,
          "ticks": [
            0,
            45,
            90
          ],
          "corridor": [
            {
              "turn": 0,
              "low": -4,
              "aim": 0,
              "high": 4
            },
            {
              "turn": 3,
              "low": -0.650498800451595,
              "aim": 3.925196718220787,
              "high": 8.500892236893169
            }
          ]
        },
        {
          "channel": "pitch",
          "title": {
            "code": "label.nose",
            "text": "Nose"
          },
          "unit": "°",
          "low": -25,
          "high": 25,
          "ticks": [
            -20,
            0,
            20
          ],
          "corridor": [
            {
              "turn": 0,
              "low": -4,
              "aim": 0,
              "high": 4
            },
            {
              "turn": 3,
              "low": -2.223016124449891,
              "aim": 1.7769838755501088,
              "high": 5.776983875550108
            }
          ]
        },
        {
          "channel": "airspeed",
          "title": {
            "code": "label.speed",
            "text": "Speed"
          },
          "unit": "kt",
          "low": 100,
          "high": 165,
          "ticks": [
            110,
            150
          ],
          "corridor": [
            {
              "turn": 0,
              "low": 148,
              "aim": 155,
              "high": 162
            },
            {
              "turn": 3,
              "low": 145.74955388155342,
              "aim": 152.74955388155342,
              "high": 159.74955388155342
            }
          ]
        },
        {
          "channel": "height",
          "title": {
            "code": "label.height",
            "text": "Height"
          },
          "unit": "ft",
          "low": -50,
          "high": 700,
          "ticks": [
            0,
            600
          ],
          "corridor": [
            {
              "turn": 0,
              "low": -60,
              "aim": 0,
              "high": 60
            },
            {
              "turn": 3,
              "low": -59.926647297770316,
              "aim": 1.6434313895179988,
              "high": 63.213510076806315
            }
          ]
        }
      ],
      "cautions": [
        "Clear the area before every leg.",
        "Stop at the hard deck."
      ],
      "warnings": null
    },
    "trace": [
      {
        "turn": 4,
        "time": 31,
        "bank": 5.231735530809398,
        "pitch": 2.3659427163211126,
        "airspeed": 152.00047162900262,
        "height": 2.9195793775289056,
        "along": 167.41553698590073,
        "across": 5.846279376421926,
        "stall": 77.00047162900262,
        "deck": 3502.919579377529
      }
    ],
    "last": {
      "number": 2,
      "direction": "left",
      "outcome": "broken-off",
      "reason": "the turn stopped short",
      "start": 0,
      "end": 0,
      "entry": {
        "time": 0,
        "turn": 0
      },
      "points": null,
      "exit": null,
      "checks": null,
      "causes": null,
      "change": "",
      "verdict": "not-measured",
      "score": 0,
      "grade": "",
      "corrections": 0
    },
    "lastPlan": null,
    "other": {
      "number": 1,
      "direction": "right",
      "outcome": "finished",
      "reason": "",
      "start": 10,
      "end": 35,
      "entry": {
        "airspeed": 155.00000021609728,
        "altitude": 5000,
        "bank": -4.321945677748865e-7,
        "pitch": 0,
        "time": 10,
        "turn": 0
      },
      "points": [
        {
          "airspeed": 124.68297651854994,
          "altitude": 5300,
          "bank": 52.855872369848115,
          "pitch": 17,
          "time": 15.625,
          "turn": 45
        },
        {
          "airspeed": 120.43004154881231,
          "altitude": 5600,
          "bank": 58.13991690237536,
          "pitch": 2.0818995585504975e-15,
          "time": 21.25,
          "turn": 90
        },
        {
          "airspeed": 124.78074851082667,
          "altitude": 5300,
          "bank": 52.66032838529462,
          "pitch": -17,
          "time": 26.875,
          "turn": 135
        }
      ],
      "exit": {
        "airspeed": 153.9494179244892,
        "altitude": 5000.35815879757,
        "bank": 1.8324101913423851,
        "pitch": -0.8304460865254383,
        "time": 35,
        "turn": 178.6
      },
      "checks": [
        {
          "id": "bank-at-45",
          "label": "Bank at 45°",
          "kind": "value",
          "channel": "bank",
          "turn": 45,
          "value": 51,
          "unit": "°",
          "aim": 53,
          "met": [
            43,
            63
          ],
          "near": [
            38,
            68
          ],
          "weight": 1,
          "verdict": "met",
          "score": 100,
          "words": "",
          "post": 45
        },
        {
          "id": "bank-at-90",
          "label": "Bank at 90°",
          "kind": "value",
          "channel": "bank",
          "turn": 90,
          "value": 58,
          "unit": "°",
          "aim": 75,
          "met": [
            65,
            85
          ],
          "near": [
            60,
            90
          ],
          "weight": 2,
          "verdict": "missed",
          "score": 35,
          "words": "Too little bank at 90°: keep rolling.",
          "post": 90
        },
        {
          "id": "airspeed-at-90",
          "label": "Speed at 90°",
          "kind": "value",
          "channel": "airspeed",
          "turn": 90,
          "value": 120.5,
          "unit": "kt",
          "aim": 112,
          "met": [
            107,
            117
          ],
          "near": [
            102,
            122
          ],
          "weight": 1,
          "verdict": "near",
          "score": 70,
          "words": "8 kt fast: pull a little more in the first 45°.",
          "post": 90
        },
        {
          "id": "pitch-at-135",
          "label": "Nose at 135°",
          "kind": "value",
          "channel": "pitch",
          "turn": 135,
          "value": -16,
          "unit": "°",
          "aim": -17,
          "met": [
            -21,
            -13
          ],
          "near": [
            -24,
            -10
          ],
          "weight": 1,
          "verdict": "met",
          "score": 100,
          "words": "",
          "post": 135
        },
        {
          "id": "height-change",
          "label": "Height, entry to exit",
          "kind": "change",
          "channel": "altitude",
          "at": 178.6,
          "value": -60,
          "unit": "ft",
          "aim": 0,
          "met": [
            -100,
            100
          ],
          "near": [
            -150,
            150
          ],
          "weight": 1,
          "verdict": "met",
          "score": 100,
          "words": "",
          "post": 180
        },
        {
          "id": "exit-turn",
          "label": "Turn at the exit",
          "kind": "value",
          "channel": "turn",
          "at": 178.6,
          "value": 178.6,
          "unit": "°",
          "aim": 180,
          "met": [
            170,
            190
          ],
          "near": [
            165,
            195
          ],
          "weight": 1,
          "verdict": "met",
          "score": 100,
          "words": "",
          "post": 180
        },
        {
          "id": "coordination",
          "label": "Ball in the middle",
          "kind": "share",
          "channel": "ball",
          "value": null,
          "unit": "%",
          "met": [
            null,
            null
          ],
          "near": [
            null,
            null
          ],
          "weight": 1,
          "verdict": "not-measured",
          "score": 0,
          "words": "",
          "reason": {
            "code": "none.lacks",
            "args": {
              "what": [
                "ball"
              ]
            },
            "text": "the stream has no ball"
          }
        }
      ],
      "posts": [
        {
          "turn": 45,
          "verdict": "met"
        },
        {
          "turn": 90,
          "verdict": "missed"
        },
        {
          "turn": 135,
          "verdict": "met"
        },
        {
          "turn": 180,
          "verdict": "met"
        },
        {
          "turn": null,
          "verdict": "not-measured"
        }
      ],
      "causes": [
        {
          "id": "underbanked",
          "leg": 0,
          "share": 0.7,
          "evidence": {
            "code": "evidence.bank-went",
            "args": {
              "from": {
                "value": 25,
                "unit": "°"
              },
              "start": {
                "value": 25,
                "unit": "°"
              },
              "to": {
                "value": 58,
                "unit": "°"
              },
              "end": {
                "value": 85,
                "unit": "°"
              }
            },
            "text": "Bank went from 25° at 25° of turn to 58° at 85°"
          },
          "advice": {
            "code": "correct.underbanked",
            "text": "There was too little bank: keep rolling slowly all the way to the steepest point, and let the nose come round."
          }
        }
      ],
      "change": {
        "code": "change.keep-rolling-to-ninety",
        "text": "Keep rolling to ninety"
      },
      "verdict": "missed",
      "score": 70.5,
      "grade": "fair",
      "headline": {
        "code": "head.unmeasured",
        "args": {
          "headline": [
            {
              "code": "head.not-yet",
              "args": {
                "what": [
                  "Bank at 90°"
                ],
                "within": [
                  {
                    "code": "head.count",
                    "args": {
                      "met": {
                        "value": 4
                      },
                      "of": {
                        "value": 6
                      }
                    },
                    "text": "4 of 6 within limits"
                  }
                ]
              },
              "text": "Not yet: Bank at 90°; 4 of 6 within limits"
            }
          ],
          "none": {
            "value": 1
          },
          "all": {
            "value": 7
          }
        },
        "text": "Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured"
      },
      "corrections": 0,
      "trace": [
        {
          "turn": 0,
          "time": 10,
          "bank": -4.321945677748865e-7,
          "pitch": 0,
          "airspeed": 155.00000021609728,
          "height": 0,
          "along": 0,
          "across": 0
        },
        {
          "turn": 1,
          "time": 10.12,
          "bank": 1.3089298520049724,
          "pitch": 0.5932914439425164,
          "airspeed": null,
          "height": null,
          "along": 41.88577544948043,
          "across": 0.365531624660953
        }
      ]
    },
    "series": [
      {
        "maneuver": "wing-over",
        "standard": "course standard",
        "aircraft": "generic turboprop trainer",
        "verdict": "missed",
        "score": 70.5,
        "grade": "fair",
        "headline": {
          "code": "head.of-leg",
          "args": {
            "leg": {
              "value": 1
            },
            "headline": [
              {
                "code": "head.unmeasured",
                "args": {
                  "headline": [
                    {
                      "code": "head.not-yet",
                      "args": {
                        "what": [
                          "Bank at 90°"
                        ],
                        "within": [
                          {
                            "code": "head.count",
                            "args": {
                              "met": {
                                "value": 4
                              },
                              "of": {
                                "value": 6
                              }
                            },
                            "text": "4 of 6 within limits"
                          }
                        ]
                      },
                      "text": "Not yet: Bank at 90°; 4 of 6 within limits"
                    }
                  ],
                  "none": {
                    "value": 1
                  },
                  "all": {
                    "value": 7
                  }
                },
                "text": "Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured"
              }
            ]
          },
          "text": "Leg 1: Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured"
        },
        "checks": [],
        "causes": null,
        "change": "",
        "legs": [
          {
            "number": 1,
            "direction": "right",
            "outcome": "finished",
            "reason": "",
            "start": 10,
            "end": 35,
            "entry": {
              "airspeed": 155.00000021609728,
              "altitude": 5000,
              "bank": -4.321945677748865e-7,
              "pitch": 0,
              "time": 10,
              "turn": 0
            },
            "points": [
              {
                "airspeed": 124.68297651854994,
                "altitude": 5300,
                "bank": 52.855872369848115,
                "pitch": 17,
                "time": 15.625,
                "turn": 45
              },
              {
                "airspeed": 120.43004154881231,
                "altitude": 5600,
                "bank": 58.13991690237536,
                "pitch": 2.0818995585504975e-15,
                "time": 21.25,
                "turn": 90
              },
              {
                "airspeed": 124.78074851082667,
                "altitude": 5300,
                "bank": 52.66032838529462,
                "pitch": -17,
                "time": 26.875,
                "turn": 135
              }
            ],
            "exit": {
              "airspeed": 153.9494179244892,
              "altitude": 5000.35815879757,
              "bank": 1.8324101913423851,
              "pitch": -0.8304460865254383,
              "time": 35,
              "turn": 178.6
            },
            "checks": [
              {
                "id": "bank-at-45",
                "label": "Bank at 45°",
                "kind": "value",
                "channel": "bank",
                "turn": 45,
                "value": 51,
                "unit": "°",
                "aim": 53,
                "met": [
                  43,
                  63
                ],
                "near": [
                  38,
                  68
                ],
                "weight": 1,
                "verdict": "met",
                "score": 100,
                "words": "",
                "post": 45
              },
              {
                "id": "bank-at-90",
                "label": "Bank at 90°",
                "kind": "value",
                "channel": "bank",
                "turn": 90,
                "value": 58,
                "unit": "°",
                "aim": 75,
                "met": [
                  65,
                  85
                ],
                "near": [
                  60,
                  90
                ],
                "weight": 2,
                "verdict": "missed",
                "score": 35,
                "words": "Too little bank at 90°: keep rolling.",
                "post": 90
              },
              {
                "id": "airspeed-at-90",
                "label": "Speed at 90°",
                "kind": "value",
                "channel": "airspeed",
                "turn": 90,
                "value": 120.5,
                "unit": "kt",
                "aim": 112,
                "met": [
                  107,
                  117
                ],
                "near": [
                  102,
                  122
                ],
                "weight": 1,
                "verdict": "near",
                "score": 70,
                "words": "8 kt fast: pull a little more in the first 45°.",
                "post": 90
              },
              {
                "id": "pitch-at-135",
                "label": "Nose at 135°",
                "kind": "value",
                "channel": "pitch",
                "turn": 135,
                "value": -16,
                "unit": "°",
                "aim": -17,
                "met": [
                  -21,
                  -13
                ],
                "near": [
                  -24,
                  -10
                ],
                "weight": 1,
                "verdict": "met",
                "score": 100,
                "words": "",
                "post": 135
              },
              {
                "id": "height-change",
                "label": "Height, entry to exit",
                "kind": "change",
                "channel": "altitude",
                "at": 178.6,
                "value": -60,
                "unit": "ft",
                "aim": 0,
                "met": [
                  -100,
                  100
                ],
                "near": [
                  -150,
                  150
                ],
                "weight": 1,
                "verdict": "met",
                "score": 100,
                "words": "",
                "post": 180
              },
              {
                "id": "exit-turn",
                "label": "Turn at the exit",
                "kind": "value",
                "channel": "turn",
                "at": 178.6,
                "value": 178.6,
                "unit": "°",
                "aim": 180,
                "met": [
                  170,
                  190
                ],
                "near": [
                  165,
                  195
                ],
                "weight": 1,
                "verdict": "met",
                "score": 100,
                "words": "",
                "post": 180
              },
              {
                "id": "coordination",
                "label": "Ball in the middle",
                "kind": "share",
                "channel": "ball",
                "value": null,
                "unit": "%",
                "met": [
                  null,
                  null
                ],
                "near": [
                  null,
                  null
                ],
                "weight": 1,
                "verdict": "not-measured",
                "score": 0,
                "words": "",
                "reason": {
                  "code": "none.lacks",
                  "args": {
                    "what": [
                      "ball"
                    ]
                  },
                  "text": "the stream has no ball"
                }
              }
            ],
            "posts": [
              {
                "turn": 45,
                "verdict": "met"
              },
              {
                "turn": 90,
                "verdict": "missed"
              },
              {
                "turn": 135,
                "verdict": "met"
              },
              {
                "turn": 180,
                "verdict": "met"
              },
              {
                "turn": null,
                "verdict": "not-measured"
              }
            ],
            "causes": [
              {
                "id": "underbanked",
                "leg": 0,
                "share": 0.7,
                "evidence": {
                  "code": "evidence.bank-went",
                  "args": {
                    "from": {
                      "value": 25,
                      "unit": "°"
                    },
                    "start": {
                      "value": 25,
                      "unit": "°"
                    },
                    "to": {
                      "value": 58,
                      "unit": "°"
                    },
                    "end": {
                      "value": 85,
                      "unit": "°"
                    }
                  },
                  "text": "Bank went from 25° at 25° of turn to 58° at 85°"
                },
                "advice": {
                  "code": "correct.underbanked",
                  "text": "There was too little bank: keep rolling slowly all the way to the steepest point, and let the nose come round."
                }
              }
            ],
            "change": {
              "code": "change.keep-rolling-to-ninety",
              "text": "Keep rolling to ninety"
            },
            "verdict": "missed",
            "score": 70.5,
            "grade": "fair",
            "headline": {
              "code": "head.unmeasured",
              "args": {
                "headline": [
                  {
                    "code": "head.not-yet",
                    "args": {
                      "what": [
                        "Bank at 90°"
                      ],
                      "within": [
                        {
                          "code": "head.count",
                          "args": {
                            "met": {
                              "value": 4
                            },
                            "of": {
                              "value": 6
                            }
                          },
                          "text": "4 of 6 within limits"
                        }
                      ]
                    },
                    "text": "Not yet: Bank at 90°; 4 of 6 within limits"
                  }
                ],
                "none": {
                  "value": 1
                },
                "all": {
                  "value": 7
                }
              },
              "text": "Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured"
            },
            "corrections": 0
          }
        ]
      }
    ],
    "callouts": [
      {
        "time": 12,
        "kind": "cue",
        "id": "at-45",
        "words": "Nose high at forty-five",
        "tone": "",
        "turn": 28,
        "to": 45,
        "due": 14.04
      },
      {
        "time": 12,
        "kind": "after",
        "id": "bank-at-45",
        "words": "",
        "tone": "met",
        "turn": 45
      },
      {
        "time": 12,
        "kind": "safety",
        "id": "hard-deck",
        "words": "Hard deck, climb",
        "tone": "safety",
        "turn": 0
      },
      {
        "time": 12,
        "kind": "clear",
        "id": "hard-deck",
        "words": "",
        "tone": "",
        "turn": 0
      },
      {
        "time": 12,
        "kind": "said",
        "id": "said",
        "words": "Eyes outside",
        "by": "Mo Example",
        "tone": "",
        "turn": 0
      },
      {
        "time": 12,
        "kind": "result",
        "id": "leg",
        "words": "Near",
        "tone": "missed",
        "turn": 0
      },
      {
        "time": 31,
        "kind": "cue",
        "id": "",
        "words": "now",
        "tone": "",
        "turn": 0
      }
    ],
    "run": "run",
    "frame": {
      "time": 31,
      "state": "leg",
      "direction": "right",
      "turn": 4,
      "phase": "up",
      "values": {
        "airspeed": 152.00047162900262,
        "altitude": 5002.919579377529,
        "ball": 0.1,
        "bank": 5.231735530809398,
        "normal-load": 1.2,
        "pitch": 2.3659427163211126
      },
      "climb": 2.9195793775289056,
      "stall": 77.00047162900262,
      "deck": 3502.919579377529,
      "point": 86.3157920769342,
      "pointBy": "position",
      "pointDistance": 4.999113757873528,
      "ground": {
        "along": 167.41553698590073,
        "across": 5.846279376421926,
        "track": 98,
        "drift": 4,
        "wind": {
          "from": 10,
          "speed": 12
        }
      },
      "line": {
        "heading": 90,
        "side": "right",
        "distance": null,
        "off": 4
      },
      "next": {
        "turn": 45,
        "label": "45°",
        "words": "nose highest, bank half way",
        "want": {
          "code": "list.and-then",
          "args": {
            "first": [
              {
                "code": "aim.bank",
                "args": {
                  "bank": {
                    "value": 53,
                    "unit": "°"
                  }
                },
                "text": "bank 53°"
              }
            ],
            "rest": [
              {
                "code": "aim.nose-up",
                "args": {
                  "nose": {
                    "value": 17,
                    "unit": "°"
                  }
                },
                "text": "nose 17° up"
              }
            ]
          },
          "text": "bank 53°, nose 17° up"
        },
        "seconds": 4.92,
        "point": 45
      },
      "cues": null,
      "gates": null,
      "ready": false,
      "unclear": false,
      "awaited": null
    },
    "acted": {
      "id": "01L",
      "command": "choose",
      "by": {
        "name": "Mo Example"
      },
      "at": "2026-01-02T03:04:05Z",
      "choice": {
        "maneuver": "wing-over",
        "standard": "course",
        "aircraft": "turboprop-trainer"
      }
    }
  },
  {
    "type": "watching",
    "station": "Seat 3",
    "watchers": [
      {
        "name": "Mo Example"
      }
    ],
    "nameless": 0
  },
  {
    "type": "hello",
    "station": "Seat 3",
    "seq": 21,
    "version": 1,
    "server": "1.2.3",
    "stations": [
      "Seat 3"
    ],
    "info": {
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
      "missing": [],
      "maneuver": "wing-over",
      "auto": false,
      "aircraft": "turboprop-trainer",
      "prompts": "card",
      "session": "2026-01-02-a",
      "student": "Ada",
      "ended": "",
      "recording": "on",
      "recordingWords": ""
    },
    "plan": {
      "maneuver": "wing-over",
      "title": "Wing-over",
      "standard": "course",
      "aircraft": "generic turboprop trainer",
      "turn": 180,
      "legs": 2,
      "checkpoints": [
        {
          "turn": 45,
          "label": "45°",
          "words": "nose highest, bank half way",
          "want": {
            "code": "list.and-then",
            "args": {
              "first": [
                {
                  "code": "aim.bank",
                  "args": {
                    "bank": {
                      "value": 53,
                      "unit": "°"
                    }
                  },
                  "text": "bank 53°"
                }
              ],
              "rest": [
                {
                  "code": "aim.nose-up",
                  "args": {
                    "nose": {
                      "value": 17,
                      "unit": "°"
                    }
                  },
                  "text": "nose 17° up"
                }
              ]
            },
            "text": "bank 53°, nose 17° up"
          }
        },
        {
          "turn": 90,
          "label": "90°",
          "words": "steepest, nose on the horizon",
          "want": {
            "code": "list.and-then",
            "args": {
              "first": [
                {
                  "code": "aim.bank",
                  "args": {
                    "bank": {
                      "value": 75,
                      "unit": "°"
                    }
                  },
                  "text": "bank 75°"
                }
              ],
              "rest": [
                {
                  "code": "list.and-then",
                  "args": {
                    "first": [
                      {
                        "code": "aim.nose-level",
                        "text": "nose level"
                      }
                    ],
                    "rest": [
                      {
                        "code": "band.exactly",
                        "args": {
                          "value": {
                            "value": 112,
                            "unit": "kt"
                          }
                        },
                        "text": "112 kt"
                      }
                    ]
                  },
                  "text": "nose level, 112 kt"
                }
              ]
            },
            "text": "bank 75°, nose level, 112 kt"
          }
        },
        {
          "turn": 135,
          "label": "135°",
          "words": "rolling out, nose lowest",
          "want": {
            "code": "list.and-then",
            "args": {
              "first": [
                {
                  "code": "aim.bank",
                  "args": {
                    "bank": {
                      "value": 53,
                      "unit": "°"
                    }
                  },
                  "text": "bank 53°"
                }
              ],
              "rest": [
                {
                  "code": "aim.nose-down",
                  "args": {
                    "nose": {
                      "value": 17,
                      "unit": "°"
                    }
                  },
                  "text": "nose 17° down"
                }
              ]
            },
            "text": "bank 53°, nose 17° down"
          }
        },
        {
          "turn": 180,
          "label": "out",
          "words": "wings level, speed and height back",
          "want": {
            "code": "list.and-then",
            "args": {
              "first": [
                {
                  "code": "aim.level",
                  "text": "wings level"
                }
              ],
              "rest": [
                {
                  "code": "band.exactly",
                  "args": {
                    "value": {
                      "value": 155,
                      "unit": "kt"
                    }
                  },
                  "text": "155 kt"
                }
              ]
            },
            "text": "wings level, 155 kt"
          }
        }
      ],
      "lanes": [
        {
          "channel": "bank",
          "title": {
            "code": "label.bank",
            "text": "Bank"
          },
          "unit": "°",
          "low": 0,
          "high": 90,
          "ticks": [
            0,
            45,
            90
          ],
          "corridor": [
            {
              "turn": 0,
              "low": -4,
              "aim": 0,
              "high": 4
            },
            {
              "turn": 3,
              "low": -0.650498800451595,
              "aim": 3.925196718220787,
              "high": 8.500892236893169
            }
          ]
        },
        {
          "channel": "pitch",
          "title": {
            "code": "label.nose",
            "text": "Nose"
          },
          "unit": "°",
          "low": -25,
          "high": 25,
          "ticks": [
            -20,
            0,
            20
          ],
          "corridor": [
            {
              "turn": 0,
              "low": -4,
              "aim": 0,
              "high": 4
            },
            {
              "turn": 3,
              "low": -2.223016124449891,
              "aim": 1.7769838755501088,
              "high": 5.776983875550108
            }
          ]
        },
        {
          "channel": "airspeed",
          "title": {
            "code": "label.speed",
            "text": "Speed"
          },
          "unit": "kt",
          "low": 100,
          "high": 165,
          "ticks": [
            110,
            150
          ],
          "corridor": [
            {
              "turn": 0,
              "low": 148,
              "aim": 155,
              "high": 162
            },
            {
              "turn": 3,
              "low": 145.74955388155342,
              "aim": 152.74955388155342,
              "high": 159.74955388155342
            }
          ]
        },
        {
          "channel": "height",
          "title": {
            "code": "label.height",
            "text": "Height"
          },
          "unit": "ft",
          "low": -50,
          "high": 700,
          "ticks": [
            0,
            600
          ],
          "corridor": [
            {
              "turn": 0,
              "low": -60,
              "aim": 0,
              "high": 60
            },
            {
              "turn": 3,
              "low": -59.926647297770316,
              "aim": 1.6434313895179988,
              "high": 63.213510076806315
            }
          ]
        }
      ],
      "cautions": [
        "Clear the area before every leg.",
        "Stop at the hard deck."
      ],
      "warnings": null
    },
    "trace": [
      {
        "turn": 4,
        "time": 31,
        "bank": 5.231735530809398,
        "pitch": 2.3659427163211126,
        "airspeed": 152.00047162900262,
        "height": 2.9195793775289056,
        "along": 167.41553698590073,
        "across": 5.846279376421926,
        "stall": 77.00047162900262,
        "deck": 3502.919579377529
      }
    ],
    "last": {
      "number": 2,
      "direction": "left",
      "outcome": "broken-off",
      "reason": "the turn stopped short",
      "start": 0,
      "end": 0,
      "entry": {
        "time": 0,
        "turn": 0
      },
      "points": null,
      "exit": null,
      "checks": null,
      "causes": null,
      "change": "",
      "verdict": "not-measured",
      "score": 0,
      "grade": "",
      "corrections": 0
    },
    "lastPlan": null,
    "other": {
      "number": 1,
      "direction": "right",
      "outcome": "finished",
      "reason": "",
      "start": 10,
      "end": 35,
      "entry": {
        "airspeed": 155.00000021609728,
        "altitude": 5000,
        "bank": -4.321945677748865e-7,
        "pitch": 0,
        "time": 10,
        "turn": 0
      },
      "points": [
        {
          "airspeed": 124.68297651854994,
          "altitude": 5300,
          "bank": 52.855872369848115,
          "pitch": 17,
          "time": 15.625,
          "turn": 45
        },
        {
          "airspeed": 120.43004154881231,
          "altitude": 5600,
          "bank": 58.13991690237536,
          "pitch": 2.0818995585504975e-15,
          "time": 21.25,
          "turn": 90
        },
        {
          "airspeed": 124.78074851082667,
          "altitude": 5300,
          "bank": 52.66032838529462,
          "pitch": -17,
          "time": 26.875,
          "turn": 135
        }
      ],
      "exit": {
        "airspeed": 153.9494179244892,
        "altitude": 5000.35815879757,
        "bank": 1.8324101913423851,
        "pitch": -0.8304460865254383,
        "time": 35,
        "turn": 178.6
      },
      "checks": [
        {
          "id": "bank-at-45",
          "label": "Bank at 45°",
          "kind": "value",
          "channel": "bank",
          "turn": 45,
          "value": 51,
          "unit": "°",
          "aim": 53,
          "met": [
            43,
            63
          ],
          "near": [
            38,
            68
          ],
          "weight": 1,
          "verdict": "met",
          "score": 100,
          "words": "",
          "post": 45
        },
        {
          "id": "bank-at-90",
          "label": "Bank at 90°",
          "kind": "value",
          "channel": "bank",
          "turn": 90,
          "value": 58,
          "unit": "°",
          "aim": 75,
          "met": [
            65,
            85
          ],
          "near": [
            60,
            90
          ],
          "weight": 2,
          "verdict": "missed",
          "score": 35,
          "words": "Too little bank at 90°: keep rolling.",
          "post": 90
        },
        {
          "id": "airspeed-at-90",
          "label": "Speed at 90°",
          "kind": "value",
          "channel": "airspeed",
          "turn": 90,
          "value": 120.5,
          "unit": "kt",
          "aim": 112,
          "met": [
            107,
            117
          ],
          "near": [
            102,
            122
          ],
          "weight": 1,
          "verdict": "near",
          "score": 70,
          "words": "8 kt fast: pull a little more in the first 45°.",
          "post": 90
        },
        {
          "id": "pitch-at-135",
          "label": "Nose at 135°",
          "kind": "value",
          "channel": "pitch",
          "turn": 135,
          "value": -16,
          "unit": "°",
          "aim": -17,
          "met": [
            -21,
            -13
          ],
          "near": [
            -24,
            -10
          ],
          "weight": 1,
          "verdict": "met",
          "score": 100,
          "words": "",
          "post": 135
        },
        {
          "id": "height-change",
          "label": "Height, entry to exit",
          "kind": "change",
          "channel": "altitude",
          "at": 178.6,
          "value": -60,
          "unit": "ft",
          "aim": 0,
          "met": [
            -100,
            100
          ],
          "near": [
            -150,
            150
          ],
          "weight": 1,
          "verdict": "met",
          "score": 100,
          "words": "",
          "post": 180
        },
        {
          "id": "exit-turn",
          "label": "Turn at the exit",
          "kind": "value",
          "channel": "turn",
          "at": 178.6,
          "value": 178.6,
          "unit": "°",
          "aim": 180,
          "met": [
            170,
            190
          ],
          "near": [
            165,
            195
          ],
          "weight": 1,
          "verdict": "met",
          "score": 100,
          "words": "",
          "post": 180
        },
        {
          "id": "coordination",
          "label": "Ball in the middle",
          "kind": "share",
          "channel": "ball",
          "value": null,
          "unit": "%",
          "met": [
            null,
            null
          ],
          "near": [
            null,
            null
          ],
          "weight": 1,
          "verdict": "not-measured",
          "score": 0,
          "words": "",
          "reason": {
            "code": "none.lacks",
            "args": {
              "what": [
                "ball"
              ]
            },
            "text": "the stream has no ball"
          }
        }
      ],
      "posts": [
        {
          "turn": 45,
          "verdict": "met"
        },
        {
          "turn": 90,
          "verdict": "missed"
        },
        {
          "turn": 135,
          "verdict": "met"
        },
        {
          "turn": 180,
          "verdict": "met"
        },
        {
          "turn": null,
          "verdict": "not-measured"
        }
      ],
      "causes": [
        {
          "id": "underbanked",
          "leg": 0,
          "share": 0.7,
          "evidence": {
            "code": "evidence.bank-went",
            "args": {
              "from": {
                "value": 25,
                "unit": "°"
              },
              "start": {
                "value": 25,
                "unit": "°"
              },
              "to": {
                "value": 58,
                "unit": "°"
              },
              "end": {
                "value": 85,
                "unit": "°"
              }
            },
            "text": "Bank went from 25° at 25° of turn to 58° at 85°"
          },
          "advice": {
            "code": "correct.underbanked",
            "text": "There was too little bank: keep rolling slowly all the way to the steepest point, and let the nose come round."
          }
        }
      ],
      "change": {
        "code": "change.keep-rolling-to-ninety",
        "text": "Keep rolling to ninety"
      },
      "verdict": "missed",
      "score": 70.5,
      "grade": "fair",
      "headline": {
        "code": "head.unmeasured",
        "args": {
          "headline": [
            {
              "code": "head.not-yet",
              "args": {
                "what": [
                  "Bank at 90°"
                ],
                "within": [
                  {
                    "code": "head.count",
                    "args": {
                      "met": {
                        "value": 4
                      },
                      "of": {
                        "value": 6
                      }
                    },
                    "text": "4 of 6 within limits"
                  }
                ]
              },
              "text": "Not yet: Bank at 90°; 4 of 6 within limits"
            }
          ],
          "none": {
            "value": 1
          },
          "all": {
            "value": 7
          }
        },
        "text": "Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured"
      },
      "corrections": 0,
      "trace": [
        {
          "turn": 0,
          "time": 10,
          "bank": -4.321945677748865e-7,
          "pitch": 0,
          "airspeed": 155.00000021609728,
          "height": 0,
          "along": 0,
          "across": 0
        },
        {
          "turn": 1,
          "time": 10.12,
          "bank": 1.3089298520049724,
          "pitch": 0.5932914439425164,
          "airspeed": null,
          "height": null,
          "along": 41.88577544948043,
          "across": 0.365531624660953
        }
      ]
    },
    "series": [
      {
        "maneuver": "wing-over",
        "standard": "course standard",
        "aircraft": "generic turboprop trainer",
        "verdict": "missed",
        "score": 70.5,
        "grade": "fair",
        "headline": {
          "code": "head.of-leg",
          "args": {
            "leg": {
              "value": 1
            },
            "headline": [
              {
                "code": "head.unmeasured",
                "args": {
                  "headline": [
                    {
                      "code": "head.not-yet",
                      "args": {
                        "what": [
                          "Bank at 90°"
                        ],
                        "within": [
                          {
                            "code": "head.count",
                            "args": {
                              "met": {
                                "value": 4
                              },
                              "of": {
                                "value": 6
                              }
                            },
                            "text": "4 of 6 within limits"
                          }
                        ]
                      },
                      "text": "Not yet: Bank at 90°; 4 of 6 within limits"
                    }
                  ],
                  "none": {
                    "value": 1
                  },
                  "all": {
                    "value": 7
                  }
                },
                "text": "Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured"
              }
            ]
          },
          "text": "Leg 1: Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured"
        },
        "checks": [],
        "causes": null,
        "change": "",
        "legs": [
          {
            "number": 1,
            "direction": "right",
            "outcome": "finished",
            "reason": "",
            "start": 10,
            "end": 35,
            "entry": {
              "airspeed": 155.00000021609728,
              "altitude": 5000,
              "bank": -4.321945677748865e-7,
              "pitch": 0,
              "time": 10,
              "turn": 0
            },
            "points": [
              {
                "airspeed": 124.68297651854994,
                "altitude": 5300,
                "bank": 52.855872369848115,
                "pitch": 17,
                "time": 15.625,
                "turn": 45
              },
              {
                "airspeed": 120.43004154881231,
                "altitude": 5600,
                "bank": 58.13991690237536,
                "pitch": 2.0818995585504975e-15,
                "time": 21.25,
                "turn": 90
              },
              {
                "airspeed": 124.78074851082667,
                "altitude": 5300,
                "bank": 52.66032838529462,
                "pitch": -17,
                "time": 26.875,
                "turn": 135
              }
            ],
            "exit": {
              "airspeed": 153.9494179244892,
              "altitude": 5000.35815879757,
              "bank": 1.8324101913423851,
              "pitch": -0.8304460865254383,
              "time": 35,
              "turn": 178.6
            },
            "checks": [
              {
                "id": "bank-at-45",
                "label": "Bank at 45°",
                "kind": "value",
                "channel": "bank",
                "turn": 45,
                "value": 51,
                "unit": "°",
                "aim": 53,
                "met": [
                  43,
                  63
                ],
                "near": [
                  38,
                  68
                ],
                "weight": 1,
                "verdict": "met",
                "score": 100,
                "words": "",
                "post": 45
              },
              {
                "id": "bank-at-90",
                "label": "Bank at 90°",
                "kind": "value",
                "channel": "bank",
                "turn": 90,
                "value": 58,
                "unit": "°",
                "aim": 75,
                "met": [
                  65,
                  85
                ],
                "near": [
                  60,
                  90
                ],
                "weight": 2,
                "verdict": "missed",
                "score": 35,
                "words": "Too little bank at 90°: keep rolling.",
                "post": 90
              },
              {
                "id": "airspeed-at-90",
                "label": "Speed at 90°",
                "kind": "value",
                "channel": "airspeed",
                "turn": 90,
                "value": 120.5,
                "unit": "kt",
                "aim": 112,
                "met": [
                  107,
                  117
                ],
                "near": [
                  102,
                  122
                ],
                "weight": 1,
                "verdict": "near",
                "score": 70,
                "words": "8 kt fast: pull a little more in the first 45°.",
                "post": 90
              },
              {
                "id": "pitch-at-135",
                "label": "Nose at 135°",
                "kind": "value",
                "channel": "pitch",
                "turn": 135,
                "value": -16,
                "unit": "°",
                "aim": -17,
                "met": [
                  -21,
                  -13
                ],
                "near": [
                  -24,
                  -10
                ],
                "weight": 1,
                "verdict": "met",
                "score": 100,
                "words": "",
                "post": 135
              },
              {
                "id": "height-change",
                "label": "Height, entry to exit",
                "kind": "change",
                "channel": "altitude",
                "at": 178.6,
                "value": -60,
                "unit": "ft",
                "aim": 0,
                "met": [
                  -100,
                  100
                ],
                "near": [
                  -150,
                  150
                ],
                "weight": 1,
                "verdict": "met",
                "score": 100,
                "words": "",
                "post": 180
              },
              {
                "id": "exit-turn",
                "label": "Turn at the exit",
                "kind": "value",
                "channel": "turn",
                "at": 178.6,
                "value": 178.6,
                "unit": "°",
                "aim": 180,
                "met": [
                  170,
                  190
                ],
                "near": [
                  165,
                  195
                ],
                "weight": 1,
                "verdict": "met",
                "score": 100,
                "words": "",
                "post": 180
              },
              {
                "id": "coordination",
                "label": "Ball in the middle",
                "kind": "share",
                "channel": "ball",
                "value": null,
                "unit": "%",
                "met": [
                  null,
                  null
                ],
                "near": [
                  null,
                  null
                ],
                "weight": 1,
                "verdict": "not-measured",
                "score": 0,
                "words": "",
                "reason": {
                  "code": "none.lacks",
                  "args": {
                    "what": [
                      "ball"
                    ]
                  },
                  "text": "the stream has no ball"
                }
              }
            ],
            "posts": [
              {
                "turn": 45,
                "verdict": "met"
              },
              {
                "turn": 90,
                "verdict": "missed"
              },
              {
                "turn": 135,
                "verdict": "met"
              },
              {
                "turn": 180,
                "verdict": "met"
              },
              {
                "turn": null,
                "verdict": "not-measured"
              }
            ],
            "causes": [
              {
                "id": "underbanked",
                "leg": 0,
                "share": 0.7,
                "evidence": {
                  "code": "evidence.bank-went",
                  "args": {
                    "from": {
                      "value": 25,
                      "unit": "°"
                    },
                    "start": {
                      "value": 25,
                      "unit": "°"
                    },
                    "to": {
                      "value": 58,
                      "unit": "°"
                    },
                    "end": {
                      "value": 85,
                      "unit": "°"
                    }
                  },
                  "text": "Bank went from 25° at 25° of turn to 58° at 85°"
                },
                "advice": {
                  "code": "correct.underbanked",
                  "text": "There was too little bank: keep rolling slowly all the way to the steepest point, and let the nose come round."
                }
              }
            ],
            "change": {
              "code": "change.keep-rolling-to-ninety",
              "text": "Keep rolling to ninety"
            },
            "verdict": "missed",
            "score": 70.5,
            "grade": "fair",
            "headline": {
              "code": "head.unmeasured",
              "args": {
                "headline": [
                  {
                    "code": "head.not-yet",
                    "args": {
                      "what": [
                        "Bank at 90°"
                      ],
                      "within": [
                        {
                          "code": "head.count",
                          "args": {
                            "met": {
                              "value": 4
                            },
                            "of": {
                              "value": 6
                            }
                          },
                          "text": "4 of 6 within limits"
                        }
                      ]
                    },
                    "text": "Not yet: Bank at 90°; 4 of 6 within limits"
                  }
                ],
                "none": {
                  "value": 1
                },
                "all": {
                  "value": 7
                }
              },
              "text": "Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured"
            },
            "corrections": 0
          }
        ]
      }
    ],
    "callouts": [
      {
        "time": 12,
        "kind": "cue",
        "id": "at-45",
        "words": "Nose high at forty-five",
        "tone": "",
        "turn": 28,
        "to": 45,
        "due": 14.04
      },
      {
        "time": 12,
        "kind": "after",
        "id": "bank-at-45",
        "words": "",
        "tone": "met",
        "turn": 45
      },
      {
        "time": 12,
        "kind": "safety",
        "id": "hard-deck",
        "words": "Hard deck, climb",
        "tone": "safety",
        "turn": 0
      },
      {
        "time": 12,
        "kind": "clear",
        "id": "hard-deck",
        "words": "",
        "tone": "",
        "turn": 0
      },
      {
        "time": 12,
        "kind": "said",
        "id": "said",
        "words": "Eyes outside",
        "by": "Mo Example",
        "tone": "",
        "turn": 0
      },
      {
        "time": 12,
        "kind": "result",
        "id": "leg",
        "words": "Near",
        "tone": "missed",
        "turn": 0
      },
      {
        "time": 31,
        "kind": "cue",
        "id": "",
        "words": "now",
        "tone": "",
        "turn": 0
      }
    ],
    "run": "run",
    "frame": {
      "time": 31,
      "state": "leg",
      "direction": "right",
      "turn": 4,
      "phase": "up",
      "values": {
        "airspeed": 152.00047162900262,
        "altitude": 5002.919579377529,
        "ball": 0.1,
        "bank": 5.231735530809398,
        "normal-load": 1.2,
        "pitch": 2.3659427163211126
      },
      "climb": 2.9195793775289056,
      "stall": 77.00047162900262,
      "deck": 3502.919579377529,
      "point": 86.3157920769342,
      "pointBy": "position",
      "pointDistance": 4.999113757873528,
      "ground": {
        "along": 167.41553698590073,
        "across": 5.846279376421926,
        "track": 98,
        "drift": 4,
        "wind": {
          "from": 10,
          "speed": 12
        }
      },
      "line": {
        "heading": 90,
        "side": "right",
        "distance": null,
        "off": 4
      },
      "next": {
        "turn": 45,
        "label": "45°",
        "words": "nose highest, bank half way",
        "want": {
          "code": "list.and-then",
          "args": {
            "first": [
              {
                "code": "aim.bank",
                "args": {
                  "bank": {
                    "value": 53,
                    "unit": "°"
                  }
                },
                "text": "bank 53°"
              }
            ],
            "rest": [
              {
                "code": "aim.nose-up",
                "args": {
                  "nose": {
                    "value": 17,
                    "unit": "°"
                  }
                },
                "text": "nose 17° up"
              }
            ]
          },
          "text": "bank 53°, nose 17° up"
        },
        "seconds": 4.92,
        "point": 45
      },
      "cues": null,
      "gates": null,
      "ready": false,
      "unclear": false,
      "awaited": null
    },
    "acted": {
      "id": "01L",
      "command": "choose",
      "by": {
        "name": "Mo Example"
      },
      "at": "2026-01-02T03:04:05Z",
      "choice": {
        "maneuver": "wing-over",
        "standard": "course",
        "aircraft": "turboprop-trainer"
      }
    },
    "you": {
      "name": "Mo Example"
    }
  },
  {
    "type": "watching",
    "station": "Seat 3",
    "watchers": [
      {
        "name": "Mo Example"
      }
    ],
    "nameless": 0
  },
  {
    "type": "station",
    "station": "Seat 3",
    "seq": 22,
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
    "missing": [],
    "maneuver": "wing-over",
    "auto": false,
    "aircraft": "turboprop-trainer",
    "prompts": "card",
    "session": "2026-01-02-a",
    "student": "Ada",
    "ended": "",
    "recording": "on",
    "recordingWords": "",
    "private": true
  },
  {
    "type": "watching",
    "station": "Seat 3",
    "watchers": [],
    "nameless": 0
  },
  {
    "type": "hello",
    "station": "Seat 3",
    "version": 1,
    "server": "1.2.3",
    "stations": [
      "Seat 3"
    ],
    "info": null,
    "plan": null,
    "trace": null,
    "last": null,
    "lastPlan": null,
    "other": null,
    "series": null,
    "callouts": null,
    "run": "run",
    "frame": null,
    "you": {
      "name": "Mo Example"
    },
    "private": true
  }
];
