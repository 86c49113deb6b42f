// Every answer as the server writes it; go test -update writes this file.
// The page's check reads it: what it says must fit static/types.d.ts.

import type { CourseList, CourseRecord, NextThing } from '../static/course.d.ts';
import type { Models, Remark, SessionDetail, SessionList, Students, Trend } from '../static/sessions.d.ts';
import type { BriefSheet, Cards, Choice, LineChoice, StationList } from '../static/types.d.ts';

export const stations: StationList = {
  "version": 1,
  "server": "1.2.3",
  "listen": [
    "127.0.0.1:7181"
  ],
  "refused": {
    "address": "192.168.1.29:49001",
    "senders": 64
  },
  "lost": {
    "datagrams": 57,
    "last": "2026-05-04T10:15:00Z"
  },
  "stations": [
    {
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
    }
  ]
};

export const cards: Cards = {
  "maneuvers": [
    {
      "name": "wing-over",
      "title": "Wing-over",
      "summary": "a climbing, then falling turn of 180°"
    }
  ],
  "auto": {
    "name": "auto",
    "title": "Whichever is flown"
  },
  "standards": null,
  "aircraft": null
};

export const choice: Choice = {
  "maneuver": "wing-over",
  "standard": "",
  "aircraft": ""
};

export const line: LineChoice = {
  "heading": 90,
  "side": "right",
  "distance": null
};

export const brief: BriefSheet = {
  "version": 1,
  "maneuver": {
    "name": "steep-turn",
    "title": "Steep turn, 50° of bank",
    "summary": "Once around at 50° of bank, height and speed held, then once around the other way."
  },
  "standard": {
    "name": "course",
    "title": "course"
  },
  "aircraft": {
    "name": "light-single",
    "title": "Light single"
  },
  "plan": {
    "maneuver": "steep-turn",
    "title": "Steep turn, 50° of bank",
    "standard": "course",
    "aircraft": "Light single",
    "turn": 360,
    "legs": 2,
    "checkpoints": [
      {
        "turn": 90,
        "label": "90°",
        "words": "bank 50°, height held",
        "want": {
          "code": "list.and-then",
          "args": {
            "first": [
              {
                "code": "aim.bank",
                "args": {
                  "bank": {
                    "value": 50,
                    "unit": "°"
                  }
                },
                "text": "bank 50°"
              }
            ],
            "rest": [
              {
                "code": "band.exactly",
                "args": {
                  "value": {
                    "value": 102,
                    "unit": "kt"
                  }
                },
                "text": "102 kt"
              }
            ]
          },
          "text": "bank 50°, 102 kt"
        }
      },
      {
        "turn": 180,
        "label": "180°",
        "words": "halfway, height and speed held",
        "want": {
          "code": "list.and-then",
          "args": {
            "first": [
              {
                "code": "aim.bank",
                "args": {
                  "bank": {
                    "value": 50,
                    "unit": "°"
                  }
                },
                "text": "bank 50°"
              }
            ],
            "rest": [
              {
                "code": "band.exactly",
                "args": {
                  "value": {
                    "value": 102,
                    "unit": "kt"
                  }
                },
                "text": "102 kt"
              }
            ]
          },
          "text": "bank 50°, 102 kt"
        }
      },
      {
        "turn": 270,
        "label": "270°",
        "words": "three quarters",
        "want": {
          "code": "list.and-then",
          "args": {
            "first": [
              {
                "code": "aim.bank",
                "args": {
                  "bank": {
                    "value": 50,
                    "unit": "°"
                  }
                },
                "text": "bank 50°"
              }
            ],
            "rest": [
              {
                "code": "band.exactly",
                "args": {
                  "value": {
                    "value": 102,
                    "unit": "kt"
                  }
                },
                "text": "102 kt"
              }
            ]
          },
          "text": "bank 50°, 102 kt"
        }
      },
      {
        "turn": 360,
        "label": "out",
        "words": "wings level on the entry heading",
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
                    "value": 102,
                    "unit": "kt"
                  }
                },
                "text": "102 kt"
              }
            ]
          },
          "text": "wings level, 102 kt"
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
        "low": -8,
        "high": 95,
        "ticks": [
          -0,
          45,
          90
        ],
        "corridor": [
          {
            "turn": 0,
            "low": -1.8,
            "aim": 0,
            "high": 1.8
          },
          {
            "turn": 3,
            "low": 5.4,
            "aim": 7.5,
            "high": 9.6
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
        "low": -36,
        "high": 36,
        "ticks": [
          -20,
          0,
          20
        ],
        "corridor": []
      },
      {
        "channel": "airspeed",
        "title": {
          "code": "label.speed",
          "text": "Speed"
        },
        "unit": "kt",
        "low": 90,
        "high": 114,
        "ticks": [
          100
        ],
        "corridor": [
          {
            "turn": 0,
            "low": 98.5,
            "aim": 102,
            "high": 105.5
          },
          {
            "turn": 3,
            "low": 97.8,
            "aim": 102,
            "high": 106.2
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
        "low": -120,
        "high": 120,
        "ticks": [
          -100,
          0,
          100
        ],
        "corridor": [
          {
            "turn": 0,
            "low": -35,
            "aim": 0,
            "high": 35
          },
          {
            "turn": 3,
            "low": -41.5,
            "aim": 0,
            "high": 41.5
          }
        ]
      }
    ],
    "cautions": [
      "For simulator practice only. Never for use in an aircraft, and not for navigation.",
      "It gives no credit toward a license.",
      "The aircraft's handbook, local rules and a licensed instructor come first."
    ],
    "warnings": []
  },
  "numbers": [
    {
      "id": "entry",
      "label": {
        "code": "label.entry-speed",
        "text": "Entry speed"
      },
      "value": 102,
      "unit": "kt",
      "digits": 0,
      "where": "",
      "words": "",
      "met": [
        92,
        112
      ]
    },
    {
      "id": "stall",
      "label": {
        "code": "label.stall-speed",
        "text": "Stall speed with wings level"
      },
      "value": 49,
      "unit": "kt",
      "digits": 0,
      "where": "",
      "words": "",
      "met": [
        null,
        null
      ]
    },
    {
      "id": "power",
      "label": {
        "code": "label.power",
        "text": "Power"
      },
      "value": null,
      "unit": "",
      "digits": 0,
      "where": "",
      "words": "climb power",
      "met": [
        null,
        null
      ]
    },
    {
      "id": "maneuvering",
      "label": {
        "code": "label.maneuvering-speed",
        "text": "Maneuvering speed"
      },
      "value": 102,
      "unit": "kt",
      "digits": 0,
      "where": "",
      "words": "",
      "met": [
        null,
        null
      ]
    },
    {
      "id": "deck",
      "label": {
        "code": "label.deck-height",
        "text": "Hard deck above the ground"
      },
      "value": 1500,
      "unit": "ft",
      "digits": 0,
      "where": "",
      "words": "",
      "met": [
        null,
        null
      ]
    },
    {
      "id": "lowest-start",
      "label": {
        "code": "label.lowest-start",
        "text": "Start no lower, above the ground"
      },
      "value": 1700,
      "unit": "ft",
      "digits": 0,
      "where": "",
      "words": "",
      "met": [
        null,
        null
      ]
    },
    {
      "id": "bank",
      "label": {
        "code": "label.steepest-bank",
        "text": "Steepest bank"
      },
      "value": 50,
      "unit": "°",
      "digits": 0,
      "where": "",
      "words": "",
      "met": [
        45,
        55
      ]
    },
    {
      "id": "duration",
      "label": {
        "code": "label.duration",
        "text": "Time of a leg"
      },
      "value": 34.2,
      "unit": "s",
      "digits": 0,
      "where": "",
      "words": "",
      "met": [
        null,
        null
      ]
    },
    {
      "id": "load",
      "label": {
        "code": "label.load",
        "text": "Highest load factor"
      },
      "value": 1.56,
      "unit": "g",
      "digits": 1,
      "where": "",
      "words": "",
      "met": [
        null,
        null
      ]
    },
    {
      "id": "stall-margin",
      "label": {
        "code": "label.stall-margin",
        "text": "Least margin over the stall"
      },
      "value": 40.9,
      "unit": "kt",
      "digits": 0,
      "where": "",
      "words": "",
      "met": [
        5,
        null
      ]
    },
    {
      "id": "radius",
      "label": {
        "code": "label.radius",
        "text": "Smallest radius, no wind"
      },
      "value": 900,
      "unit": "ft",
      "digits": 0,
      "where": "",
      "words": "",
      "met": [
        null,
        null
      ]
    }
  ],
  "path": [
    {
      "turn": 0,
      "time": 0,
      "along": 0,
      "across": 0,
      "height": 0,
      "airspeed": 102,
      "bank": 0,
      "pitch": 0,
      "load": 1,
      "energy": 0,
      "stall": 53
    },
    {
      "turn": 1,
      "time": 0.53,
      "along": 99,
      "across": 1,
      "height": 0,
      "airspeed": 102,
      "bank": 18.3,
      "pitch": 0,
      "load": 1.05,
      "energy": 0,
      "stall": 51.7
    }
  ],
  "problem": "",
  "notes": [
    {
      "code": "plan.begins-at",
      "args": {
        "altitude": {
          "value": 5000,
          "unit": "ft"
        },
        "step": {
          "value": 1000,
          "unit": "ft"
        }
      },
      "text": "the reference path begins at 5000 ft above sea level; begun 1000 ft higher, a leg takes about 1.5 % longer"
    }
  ],
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
            "unit": "°",
            "digits": -1
          }
        },
        "text": "within 5°"
      },
      "value": null,
      "unit": "°",
      "ok": false
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
            "unit": "ft/min",
            "digits": -1
          }
        },
        "text": "within 300 ft/min"
      },
      "value": null,
      "unit": "ft/min",
      "ok": false
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
            "value": 102,
            "unit": "kt",
            "digits": -1
          },
          "within": {
            "value": 10,
            "unit": "kt",
            "digits": -1
          }
        },
        "text": "102 kt, within 10 kt"
      },
      "value": null,
      "unit": "kt",
      "ok": false
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
            "digits": -1
          }
        },
        "text": "within 0.25 of a ball"
      },
      "value": null,
      "unit": "balls",
      "ok": false
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
            "value": 200,
            "unit": "ft"
          }
        },
        "text": "at least 200 ft"
      },
      "value": null,
      "unit": "ft",
      "ok": false
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
      "value": null,
      "unit": "°",
      "ok": false,
      "optional": true
    }
  ],
  "errors": [
    {
      "id": "bank-grows",
      "title": {
        "code": "change.keep-the-bank-from-growing",
        "text": "Keep the bank from growing"
      },
      "seen": "Bank grew where it is to be held.",
      "advice": {
        "code": "correct.bank-grows-level",
        "text": "The bank went on growing after it was set, as it does by itself in a steep turn: hold it with slight opposite aileron, and rudder to keep the ball."
      }
    },
    {
      "id": "bank-falls-off",
      "title": {
        "code": "change.keep-the-bank-on",
        "text": "Keep the bank on"
      },
      "seen": "Bank came off where it is to be held.",
      "advice": {
        "code": "correct.bank-falls-off",
        "text": "The bank came off too soon: look at the wing against the horizon and hold it where it was."
      }
    }
  ],
  "usual": [
    "Height lost in the roll-in, or gained in the roll-out.",
    "Bank drifts: the height goes with it.",
    "Eyes on the instruments instead of the horizon.",
    "Roll-out begun too late or too early for the heading."
  ],
  "said": [
    {
      "turn": 90,
      "label": "90°",
      "words": {
        "code": "Bank {bank}, hold height",
        "args": {
          "bank": {
            "value": 50
          }
        },
        "text": "Bank 50, hold height"
      }
    },
    {
      "turn": 180,
      "label": "180°",
      "words": "Halfway, hold height"
    },
    {
      "turn": 270,
      "label": "270°",
      "words": "Ninety degrees to go"
    },
    {
      "turn": 335,
      "label": "335°",
      "words": "Roll out now"
    },
    {
      "turn": 360,
      "label": "out",
      "words": {
        "code": "Level on {heading}",
        "args": {
          "heading": [
            {
              "code": "heading.entry",
              "text": "the entry heading"
            }
          ]
        },
        "text": "Level on the entry heading"
      }
    }
  ],
  "cautions": [
    "For simulator practice only. Never for use in an aircraft, and not for navigation.",
    "It gives no credit toward a license.",
    "The aircraft's handbook, local rules and a licensed instructor come first."
  ],
  "sources": [
    "ACS7 CA.V.A",
    "common practice, no source"
  ]
};

export const sessions: SessionList = {
  "version": 1,
  "total": 1,
  "more": false,
  "unflown": 0,
  "sessions": [
    {
      "id": "2031-05-04T09-00-07Z_Seat-3",
      "began": "2031-05-04T09:00:07Z",
      "ended": "2031-05-04T09:20:07Z",
      "station": "Seat 3",
      "student": "Ada Example",
      "keep": false,
      "maneuvers": [
        {
          "name": "wing-over",
          "title": "Wing-over"
        }
      ],
      "standard": "course",
      "aircraft": {
        "name": "trainer",
        "title": "A trainer"
      },
      "verdicts": [
        "missed",
        "missed"
      ],
      "legs": 2,
      "score": 70.5,
      "grade": "fair",
      "headline": {
        "code": "head.unmeasured",
        "args": {
          "headline": [
            {
              "code": "head.of-leg",
              "args": {
                "leg": {
                  "value": 1
                },
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
                ]
              },
              "text": "Leg 1: Not yet: Bank at 90°; 4 of 6 within limits"
            }
          ],
          "none": {
            "value": 1
          },
          "all": {
            "value": 7
          }
        },
        "text": "Leg 1: Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured"
      },
      "change": {
        "code": "change.keep-rolling-to-ninety",
        "text": "Keep rolling to ninety"
      },
      "remarks": 1,
      "found": "The nose is late over the top."
    }
  ],
  "next": "",
  "students": [
    "Ada Example"
  ],
  "maneuvers": [
    {
      "name": "wing-over",
      "title": "Wing-over"
    }
  ],
  "aircraft": [
    {
      "name": "trainer",
      "title": "A trainer"
    }
  ],
  "leftOut": {
    "total": 0,
    "sessions": []
  }
};

export const session: SessionDetail = {
  "id": "2031-05-04T09-00-07Z_Seat-3",
  "began": "2031-05-04T09:00:07Z",
  "ended": "2031-05-04T09:20:07Z",
  "station": "Seat 3",
  "student": "Ada Example",
  "keep": false,
  "maneuvers": [
    {
      "name": "wing-over",
      "title": "Wing-over"
    }
  ],
  "standard": "course",
  "aircraft": {
    "name": "trainer",
    "title": "A trainer"
  },
  "verdicts": [
    "missed",
    "missed"
  ],
  "legs": 2,
  "score": 70.5,
  "grade": "fair",
  "headline": {
    "code": "head.unmeasured",
    "args": {
      "headline": [
        {
          "code": "head.of-leg",
          "args": {
            "leg": {
              "value": 1
            },
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
            ]
          },
          "text": "Leg 1: Not yet: Bank at 90°; 4 of 6 within limits"
        }
      ],
      "none": {
        "value": 1
      },
      "all": {
        "value": 7
      }
    },
    "text": "Leg 1: Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured"
  },
  "change": {
    "code": "change.keep-rolling-to-ninety",
    "text": "Keep rolling to ninety"
  },
  "remarks": 1,
  "found": "",
  "version": 1,
  "server": "1.2.3",
  "problem": {
    "code": "recording.none",
    "text": "of this session there is no recording; only its grades were kept"
  },
  "left": "",
  "said": [
    {
      "id": 1,
      "leg": 2,
      "time": 95.5,
      "by": "instructor",
      "words": "The nose is late over the top.",
      "at": "2031-05-05T09:00:07Z",
      "key": "01RASFKVERTD18TS8WAPY7EWSN"
    }
  ],
  "regrades": [
    {
      "at": "2031-05-06T09:00:07Z",
      "server": "1.2.3",
      "maneuver": "wing-over",
      "standard": "check",
      "aircraft": "trainer",
      "score": 70.5,
      "grade": "fair",
      "headline": {
        "code": "head.unmeasured",
        "args": {
          "headline": [
            {
              "code": "head.of-leg",
              "args": {
                "leg": {
                  "value": 1
                },
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
                ]
              },
              "text": "Leg 1: Not yet: Bank at 90°; 4 of 6 within limits"
            }
          ],
          "none": {
            "value": 1
          },
          "all": {
            "value": 7
          }
        },
        "text": "Leg 1: Not yet: Bank at 90°; 4 of 6 within limits; 1 of 7 checks not measured"
      },
      "differences": [
        {
          "code": "differs.leg",
          "args": {
            "leg": {
              "value": 2
            },
            "label": [
              "bank at 90°"
            ],
            "is": [
              {
                "code": "verdict.near",
                "text": "near"
              }
            ],
            "was": [
              {
                "code": "verdict.met",
                "text": "met"
              }
            ]
          },
          "text": "leg 2, bank at 90°: near, was met"
        }
      ]
    }
  ],
  "judging": {
    "overruled": [],
    "observed": [],
    "ratings": [],
    "signed": [],
    "rulings": []
  }
};

export const trend: Trend = {
  "version": 1,
  "maneuver": {
    "name": "wing-over",
    "title": "Wing-over"
  },
  "sessions": 1,
  "more": false,
  "legs": 2,
  "checks": [
    {
      "id": "bank-at-45",
      "label": "Bank at 45°",
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
      "points": [
        {
          "session": "2031-05-04T09-00-07Z_Seat-3",
          "began": "2031-05-04T09:00:07Z",
          "legs": 2,
          "met": 2,
          "low": 51,
          "q1": 51,
          "median": 51,
          "q3": 51,
          "high": 51,
          "aim": 53,
          "metBand": [
            43,
            63
          ],
          "nearBand": [
            38,
            68
          ]
        }
      ]
    },
    {
      "id": "bank-at-90",
      "label": "Bank at 90°",
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
      "points": [
        {
          "session": "2031-05-04T09-00-07Z_Seat-3",
          "began": "2031-05-04T09:00:07Z",
          "legs": 2,
          "met": 0,
          "low": 58,
          "q1": 58,
          "median": 58,
          "q3": 58,
          "high": 58,
          "aim": 75,
          "metBand": [
            65,
            85
          ],
          "nearBand": [
            60,
            90
          ]
        }
      ]
    }
  ],
  "streak": {
    "now": 0,
    "best": 0,
    "session": ""
  },
  "things": [
    {
      "words": {
        "code": "change.keep-rolling-to-ninety",
        "text": "Keep rolling to ninety"
      },
      "legs": 2,
      "sessions": 1,
      "session": "2031-05-04T09-00-07Z_Seat-3"
    }
  ]
};

export const models: Models = {
  "version": 1,
  "best": {
    "session": "2031-05-04T09-00-07Z_Seat-3",
    "n": 2,
    "began": "2031-05-04T09:00:07Z",
    "student": "Ada Example",
    "score": 97.5,
    "grade": "excellent"
  },
  "kept": [
    {
      "session": "2031-05-04T09-00-07Z_Seat-3",
      "n": 2,
      "began": "2031-05-04T09:00:07Z",
      "student": "Ada Example",
      "score": 97.5,
      "grade": "excellent"
    }
  ]
};

export const noTrend: Trend = {
  "version": 1,
  "maneuver": null,
  "sessions": 0,
  "more": false,
  "legs": 0,
  "checks": [],
  "streak": {
    "now": 0,
    "best": 0,
    "session": ""
  },
  "things": []
};

export const remark: Remark = {
  "id": 1,
  "leg": 2,
  "time": 95.5,
  "by": "instructor",
  "words": "The nose is late over the top.",
  "at": "2031-05-05T09:00:07Z",
  "key": "01RASFKVERTD18TS8WAPY7EWSN"
};

export const students: Students = {
  "version": 1,
  "students": [
    "Ada Example"
  ]
};

export const courses: CourseList = {
  "version": 1,
  "courses": [
    {
      "name": "first",
      "title": "First course",
      "summary": "Wing-over and chandelle: the parts, then the whole, on both sides, then a silent check of each.",
      "source": "FAA-H-8083-3C ch. 10; FAA-H-8083-9B ch. 8; order of the maneuvers common practice, no source",
      "pass": {
        "good": 5,
        "of": 6,
        "sides": "each",
        "source": "simulated: of students who meet the standard every other time, fewer than 1 in 20 pass in an evening of 20 legs; of those who meet it nine times in ten, 9 in 10 do; the bounds common practice, no source"
      },
      "slip": {
        "missed": 3,
        "source": "simulated: of the steps of students who meet the standard nine times in ten, 1 in 50 slips in an evening of 20 legs; of those who meet it every other time, 3 in 4; the bounds common practice, no source"
      },
      "steps": [
        {
          "id": "level-roll",
          "title": "Level roll, the ball held",
          "maneuver": "level-roll",
          "checks": [],
          "standard": "practice",
          "prompts": "all",
          "checkFlight": false,
          "pass": {
            "good": 5,
            "of": 6,
            "sides": "each",
            "source": "simulated: of students who meet the standard every other time, fewer than 1 in 20 pass in an evening of 20 legs; of those who meet it nine times in ten, 9 in 10 do; the bounds common practice, no source"
          },
          "unlocks": [
            "wing-over-to-45"
          ],
          "source": "uncoordinated controls are among the errors of each maneuver of FAA-H-8083-3C ch. 10; as a step common practice, no source"
        },
        {
          "id": "wing-over-to-45",
          "title": "Wing-over to 45°, back to level",
          "maneuver": "wing-over-to-45",
          "checks": [],
          "standard": "practice",
          "prompts": "all",
          "checkFlight": false,
          "pass": {
            "good": 5,
            "of": 6,
            "sides": "each",
            "source": "simulated: of students who meet the standard every other time, fewer than 1 in 20 pass in an evening of 20 legs; of those who meet it nine times in ten, 9 in 10 do; the bounds common practice, no source"
          },
          "unlocks": [
            "wing-over-to-90"
          ],
          "source": "P-1212 p. 33: highest nose and 45° of bank at 45°; as a step common practice, no source"
        }
      ]
    }
  ]
};

export const record: CourseRecord = {
  "version": 1,
  "cautions": [
    "For simulator practice only. Never for use in an aircraft, and not for navigation.",
    "It gives no credit toward a license.",
    "The aircraft's handbook, local rules and a licensed instructor come first."
  ],
  "student": "Ada Example",
  "at": "2031-05-05T09:00:07Z",
  "known": true,
  "chosen": {
    "course": ""
  },
  "flown": {
    "course": "first"
  },
  "course": {
    "name": "first",
    "title": "First course",
    "summary": "Wing-over and chandelle: the parts, then the whole, on both sides, then a silent check of each.",
    "source": "FAA-H-8083-3C ch. 10; FAA-H-8083-9B ch. 8; order of the maneuvers common practice, no source",
    "pass": {
      "good": 5,
      "of": 6,
      "sides": "each",
      "source": "simulated: of students who meet the standard every other time, fewer than 1 in 20 pass in an evening of 20 legs; of those who meet it nine times in ten, 9 in 10 do; the bounds common practice, no source"
    },
    "slip": {
      "missed": 3,
      "source": "simulated: of the steps of students who meet the standard nine times in ten, 1 in 50 slips in an evening of 20 legs; of those who meet it every other time, 3 in 4; the bounds common practice, no source"
    },
    "steps": [
      {
        "id": "level-roll",
        "title": "Level roll, the ball held",
        "maneuver": "level-roll",
        "checks": [],
        "standard": "practice",
        "prompts": "all",
        "checkFlight": false,
        "pass": {
          "good": 5,
          "of": 6,
          "sides": "each",
          "source": "simulated: of students who meet the standard every other time, fewer than 1 in 20 pass in an evening of 20 legs; of those who meet it nine times in ten, 9 in 10 do; the bounds common practice, no source"
        },
        "unlocks": [
          "wing-over-to-45"
        ],
        "source": "uncoordinated controls are among the errors of each maneuver of FAA-H-8083-3C ch. 10; as a step common practice, no source"
      },
      {
        "id": "wing-over-to-45",
        "title": "Wing-over to 45°, back to level",
        "maneuver": "wing-over-to-45",
        "checks": [],
        "standard": "practice",
        "prompts": "all",
        "checkFlight": false,
        "pass": {
          "good": 5,
          "of": 6,
          "sides": "each",
          "source": "simulated: of students who meet the standard every other time, fewer than 1 in 20 pass in an evening of 20 legs; of those who meet it nine times in ten, 9 in 10 do; the bounds common practice, no source"
        },
        "unlocks": [
          "wing-over-to-90"
        ],
        "source": "P-1212 p. 33: highest nose and 45° of bank at 45°; as a step common practice, no source"
      }
    ]
  },
  "progress": {
    "course": "first",
    "now": "wing-over-to-45",
    "passed": 1,
    "steps": [
      {
        "id": "level-roll",
        "state": "passed",
        "prompts": "fade",
        "sides": [
          {
            "direction": "right",
            "good": 0,
            "of": 0,
            "need": 5
          },
          {
            "direction": "left",
            "good": 0,
            "of": 0,
            "need": 5
          }
        ],
        "tries": 0,
        "good": 0,
        "last": "",
        "passedBy": [],
        "lately": [],
        "missed": [],
        "ruled": {
          "step": "level-roll",
          "passed": true,
          "by": "Bo Example",
          "at": "2031-05-05T09:00:07Z",
          "reason": "seen at another simulator",
          "session": "2031-05-04T09-00-07Z_Seat-3",
          "n": 2
        }
      },
      {
        "id": "wing-over-to-45",
        "state": "open",
        "prompts": "all",
        "sides": [
          {
            "direction": "right",
            "good": 0,
            "of": 0,
            "need": 5
          },
          {
            "direction": "left",
            "good": 0,
            "of": 0,
            "need": 5
          }
        ],
        "tries": 0,
        "good": 0,
        "last": "",
        "passedBy": [
          {
            "session": "2031",
            "n": 1,
            "began": "2031-05-05T09:00:07Z",
            "direction": "left",
            "verdict": "met",
            "score": 97.5,
            "grade": "excellent",
            "good": true,
            "overruled": true,
            "signed": true
          }
        ],
        "lately": [],
        "missed": [],
        "ruled": null
      }
    ]
  },
  "steps": [
    {
      "maneuver": "Level roll, the ball held",
      "required": "good",
      "last": "",
      "reached": false
    },
    {
      "maneuver": "Wing-over to 45°, back to level",
      "required": "good",
      "last": "",
      "reached": false
    }
  ],
  "blocks": [
    {
      "aspect": "bank",
      "weak": true,
      "marks": [
        "missed",
        ""
      ]
    }
  ],
  "plan": {
    "course": "first",
    "minutes": 10,
    "away": 1,
    "items": [
      {
        "step": "wing-over-to-45",
        "title": "Wing-over to 45°, back to level",
        "maneuver": "wing-over-to-45",
        "checks": [],
        "standard": "practice",
        "prompts": "all",
        "direction": "right",
        "legs": 4,
        "minutes": 8,
        "why": {
          "code": "course.why-new",
          "text": "new: several in a row first"
        },
        "source": "FAA-H-8083-9B ch. 3; Guadagnoli and Lee 2004",
        "task": {
          "course": "first",
          "step": "wing-over-to-45",
          "title": "Wing-over to 45°, back to level",
          "maneuver": "wing-over-to-45",
          "standard": "practice",
          "checks": [],
          "prompts": "all",
          "checkFlight": false,
          "good": 5,
          "of": 6,
          "sides": "each",
          "slip": 3,
          "stands": {
            "state": "open",
            "row": 0,
            "right": [],
            "left": [],
            "tried": [
              false,
              false
            ]
          }
        }
      }
    ]
  },
  "week": {
    "legs": 2,
    "before": 0,
    "steadier": [
      {
        "maneuver": "wing-over",
        "standard": "course",
        "check": "bank-at-90",
        "label": "Bank at 90°",
        "met": 5,
        "of": 6,
        "metThen": 2,
        "ofThen": 7,
        "z": 2.5
      }
    ],
    "shakier": [],
    "still": []
  }
};

export const nobodysNext: NextThing = {
  "version": 1,
  "student": "",
  "course": "",
  "passed": 0,
  "of": 0,
  "plan": null
};

export const next: NextThing = {
  "version": 1,
  "student": "Ada Example",
  "course": "First course",
  "passed": 1,
  "of": 13,
  "plan": {
    "course": "first",
    "minutes": 10,
    "away": 1,
    "items": [
      {
        "step": "wing-over-to-45",
        "title": "Wing-over to 45°, back to level",
        "maneuver": "wing-over-to-45",
        "checks": [],
        "standard": "practice",
        "prompts": "all",
        "direction": "right",
        "legs": 4,
        "minutes": 8,
        "why": {
          "code": "course.why-new",
          "text": "new: several in a row first"
        },
        "source": "FAA-H-8083-9B ch. 3; Guadagnoli and Lee 2004",
        "task": {
          "course": "first",
          "step": "wing-over-to-45",
          "title": "Wing-over to 45°, back to level",
          "maneuver": "wing-over-to-45",
          "standard": "practice",
          "checks": [],
          "prompts": "all",
          "checkFlight": false,
          "good": 5,
          "of": 6,
          "sides": "each",
          "slip": 3,
          "stands": {
            "state": "open",
            "row": 0,
            "right": [],
            "left": [],
            "tried": [
              false,
              false
            ]
          }
        }
      }
    ]
  }
};
