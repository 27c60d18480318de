/** Measured entries, what is read of them, and an advice set over it; path → text. */
export const lists: Readonly<Record<string, string>> = {
  'facts/urine.json': `{
  "$schema": "urn:dwellset:facts:1",
  "group": "urine",
  "order": 5,
  "title": "Urine",
  "facts": [
    {
      "id": "urine.volumes",
      "type": "list",
      "kind": "measured",
      "at": ["from", "to"],
      "staleAfter": "PT2H",
      "item": {
        "from": { "type": "date-time", "title": "from" },
        "to": { "type": "date-time", "title": "to" },
        "volume": { "type": "number", "unit": "mL", "step": 1, "limits": [0, 5000], "title": "volume" },
        "hours": {
          "type": "number", "unit": "h", "limits": [0, 24], "title": "hours",
          "from": { "elapsed": { "from": "from", "to": "to" } }
        },
        "rate": {
          "type": "number", "unit": "mL/h", "limits": [0, 5000], "title": "rate",
          "from": { "ratio": ["volume", "hours"] }
        },
        "source": { "type": "code", "codes": "materials", "title": "source" }
      },
      "title": "urine volumes",
      "question": "Which volumes are charted?"
    },
    {
      "id": "urine.catheters",
      "type": "list",
      "kind": "things",
      "item": {
        "use-by": { "type": "date", "monthMeans": "last-day", "title": "use by" },
        "days-left": {
          "type": "number", "unit": "d", "title": "days left",
          "from": { "calendarDays": { "from": "asOf", "to": "use-by" } }
        }
      },
      "title": "spare catheters",
      "question": "Which spare catheters are there?"
    },
    {
      "id": "urine.least-rate",
      "type": "number",
      "unit": "mL/h",
      "limits": [0, 5000],
      "title": "least rate",
      "question": "What was the least rate?",
      "from": { "least": { "of": "urine.volumes", "field": "rate", "within": { "newest": 3 } } }
    },
    {
      "id": "urine.entries",
      "type": "number",
      "unit": "1",
      "step": 1,
      "limits": [0, 5000],
      "title": "number of volumes",
      "question": "How many volumes are charted?",
      "from": { "count": { "of": "urine.volumes" } }
    },
    {
      "id": "urine.drained",
      "type": "number",
      "unit": "mL",
      "step": 1,
      "limits": [0, 100000],
      "title": "volume since insertion",
      "question": "How much came since insertion?",
      "from": { "total": { "of": "urine.volumes", "field": "volume", "within": { "since": "catheter.inserted-at" } } }
    },
    {
      "id": "urine.last-source",
      "type": "code",
      "codes": "materials",
      "title": "last source",
      "question": "Where did the last volume come from?",
      "from": { "newest": { "of": "urine.volumes", "field": "source" } }
    }
  ]
}`,
  'choices/output.json': `{
  "$schema": "urn:dwellset:choices:1",
  "id": "output",
  "version": "0.1.0",
  "title": "Output",
  "parameters": [
    {
      "id": "output.high", "type": "number", "unit": "mL/h", "range": [50, 500], "title": "high rate",
      "default": 200, "cautious": "lower", "positions": [], "local": true
    },
    {
      "id": "output.window", "type": "number", "unit": "h", "range": [1, 24], "title": "window",
      "default": 12, "cautious": "higher", "positions": [], "local": true
    },
    {
      "id": "output.days", "type": "number", "unit": "d", "range": [1, 3], "title": "days",
      "default": 2, "cautious": "higher", "positions": [], "local": true
    }
  ],
  "tables": []
}`,
  'output/ruleset.json': `{
  "$schema": "urn:dwellset:rule-set:1",
  "id": "output",
  "version": "0.1.0",
  "status": "draft",
  "language": "en",
  "title": "Set output",
  "intendedUse": "Examples of mistakes",
  "users": "Authors",
  "exclusions": [],
  "limits": [],
  "shape": "advice",
  "uses": ["output"],
  "conditions": {},
  "derived": [
    {
      "id": "urine.high-run",
      "type": "number",
      "unit": "h",
      "limits": [0, 1000],
      "title": "longest run of high rates",
      "question": "How long was the rate high?",
      "from": { "longestRun": {
        "of": "urine.volumes",
        "where": { "field": "rate", "operator": "greaterThanInclusive", "value": { "parameter": "output.high" } },
        "within": { "last": { "parameter": "output.window" }, "until": "newest" }
      } }
    }
  ],
  "rules": ["steady"]
}`,
  'output/steady.rule.json': `{
  "$schema": "urn:dwellset:rule:1",
  "id": "steady",
  "title": "Output is steady",
  "when": {
    "all": [
      { "fact": "urine.least-rate", "operator": "greaterThanInclusive", "value": 30 },
      { "fact": "urine.entries", "operator": "greaterThanInclusive", "value": 3 },
      { "fact": "urine.high-run", "operator": "lessThan", "value": 2 }
    ]
  },
  "advice": { "summary": "Chart less often", "indicator": "info" },
  "because": "Nothing changes.",
  "evidence": ["stay-short"]
}`,
  'output/steady.vignettes.json': `{
  "$schema": "urn:dwellset:vignettes:1",
  "base": { "asOf": "2026-11-02T08:00:00+00:00", "timeZone": "Europe/London", "facts": {} },
  "vignettes": [
    {
      "id": "charted",
      "title": "one hour is charted",
      "facts": {
        "urine.volumes": [
          {
            "from": "2026-11-02T06:00:00+00:00",
            "to": "2026-11-02T07:00:00+00:00",
            "volume": { "value": 20, "unit": "mL" },
            "source": "latex"
          }
        ],
        "urine.catheters": { "items": [{ "use-by": "2027-01" }, { "use-by": null }], "complete": false }
      },
      "expect": { "rules": { "steady": "does-not-apply" } }
    }
  ]
}`,
};
