/** What all sets of the base library share: the dictionary, choices, evidence and the hazard log; path → text. */
export const shared: Readonly<Record<string, string>> = {
  'facts/codes.json': `{
  "$schema": "urn:dwellset:codes:1",
  "lists": {
    "materials": { "latex": "latex", "silicone": "all-silicone" },
    "signs": { "fever": "fever", "pain": "loin pain" },
    "ages": { "young": "up to 18", "adult": "18 and over" },
    "reasons": { "supported": "a reason stands", "no-reason": "no reason stands" }
  },
  "extensible": ["materials"]
}`,
  'facts/allergy.json': `{
  "$schema": "urn:dwellset:facts:1",
  "group": "allergy",
  "order": 1,
  "title": "Allergies",
  "facts": [
    {
      "id": "allergy.latex",
      "type": "boolean",
      "title": "latex allergy",
      "question": "Is there a latex allergy?",
      "phrases": { "true": "there is a latex allergy", "false": "there is no latex allergy" }
    }
  ]
}`,
  'facts/catheter.json': `{
  "$schema": "urn:dwellset:facts:1",
  "group": "catheter",
  "order": 2,
  "title": "Catheter",
  "facts": [
    { "id": "catheter.inserted-at", "type": "date-time", "title": "insertion", "question": "When was it inserted?" },
    {
      "id": "catheter.attempts",
      "type": "list",
      "kind": "events",
      "at": ["at"],
      "item": {
        "at": { "type": "date-time", "title": "at" },
        "passed": { "type": "boolean", "title": "passed" }
      },
      "title": "attempts",
      "question": "Which attempts were made?"
    },
    {
      "id": "catheter.failed",
      "type": "number",
      "unit": "1",
      "step": 1,
      "decimals": 0,
      "limits": [0, 50],
      "title": "failed attempts",
      "question": "How many attempts failed?",
      "from": { "count": { "of": "catheter.attempts", "where": { "field": "passed", "operator": "equal", "value": false } } }
    },
    {
      "id": "catheter.removed-at",
      "type": "date-time",
      "notBefore": "catheter.inserted-at",
      "title": "removal",
      "question": "When was it removed?"
    },
    { "id": "catheter.use-by", "type": "date", "monthMeans": "last-day", "title": "use by", "question": "Use by?" },
    {
      "id": "catheter.size",
      "type": "number",
      "unit": "[Ch]",
      "step": 1,
      "decimals": 0,
      "limits": [4, 30],
      "usual": [6, 24],
      "staleAfter": "P7D",
      "title": "size",
      "question": "Which size is it?"
    },
    { "id": "catheter.material", "type": "code", "codes": "materials", "title": "material", "question": "Which one?" },
    {
      "id": "catheter.days",
      "type": "number",
      "unit": "d",
      "step": 1,
      "decimals": 0,
      "limits": [0, 400],
      "title": "days in place",
      "question": "How many days has it been in?",
      "from": { "calendarDays": { "from": "catheter.inserted-at", "to": "asOf" } }
    }
  ]
}`,
  'facts/patient.json': `{
  "$schema": "urn:dwellset:facts:1",
  "group": "patient",
  "order": 3,
  "title": "Patient",
  "facts": [
    {
      "id": "patient.age-years",
      "type": "number",
      "unit": "a",
      "step": 1,
      "decimals": 0,
      "limits": [0, 130],
      "title": "age",
      "question": "How old is the patient?"
    },
    {
      "id": "patient.weight",
      "type": "number",
      "unit": "kg",
      "step": 0.1,
      "decimals": 1,
      "limits": [0.3, 400],
      "title": "weight",
      "question": "What does the patient weigh?"
    },
    {
      "id": "patient.urine",
      "type": "number",
      "unit": "mL",
      "step": 1,
      "decimals": 0,
      "limits": [0, 20000],
      "title": "urine in six hours",
      "question": "How much urine came in six hours?"
    },
    {
      "id": "patient.urine-rate",
      "type": "number",
      "unit": "mL/kg/h",
      "step": 0.01,
      "decimals": 2,
      "limits": [0, 100],
      "title": "urine output",
      "question": "What is the urine output?",
      "from": { "ratio": ["patient.urine", "patient.weight", { "value": 6, "unit": "h" }] }
    },
    {
      "id": "patient.signs",
      "type": "codes",
      "codes": "signs",
      "unlisted": "no",
      "title": "signs",
      "question": "Which signs are there?"
    },
    { "id": "patient.remarks", "type": "text", "title": "remarks", "question": "Anything else?" },
    {
      "id": "patient.age-group",
      "type": "code",
      "codes": "ages",
      "title": "age group",
      "question": "Which age group is the patient in?",
      "from": { "band": { "of": "patient.age-years", "cuts": [18], "codes": ["young", "adult"] } }
    }
  ]
}`,
  'facts/option.json': `{
  "$schema": "urn:dwellset:facts:1",
  "group": "option",
  "order": 4,
  "title": "Items of stock",
  "facts": [
    {
      "id": "option.size",
      "type": "number",
      "unit": "[Ch]",
      "step": 1,
      "decimals": 0,
      "limits": [4, 30],
      "title": "size",
      "question": "Which size is the item?"
    },
    { "id": "option.material", "type": "code", "codes": "materials", "title": "material", "question": "Which one?" }
  ]
}`,
  'choices/dwell.json': `{
  "$schema": "urn:dwellset:choices:1",
  "id": "dwell",
  "version": "0.1.0",
  "title": "How long a catheter stays",
  "parameters": [
    {
      "id": "dwell.limit",
      "type": "number",
      "unit": "d",
      "step": 1,
      "range": [1, 84],
      "title": "longest stay",
      "default": 7,
      "cautious": "lower",
      "positions": [
        { "value": 5, "evidence": ["stay-short"] },
        { "value": 7, "evidence": ["stay-short"] }
      ]
    },
    {
      "id": "dwell.signs",
      "type": "codes",
      "codes": "signs",
      "title": "signs that count",
      "default": ["fever"],
      "cautious": "neither",
      "positions": [],
      "local": true
    },
    {
      "id": "dwell.enabled",
      "type": "boolean",
      "title": "whether stays are limited",
      "default": true,
      "cautious": "higher",
      "positions": [],
      "local": true
    }
  ],
  "tables": [
    {
      "id": "dwell.longest",
      "key": "materials",
      "title": "longest stay by material",
      "columns": { "days": { "type": "number", "unit": "d" } },
      "rows": {
        "latex": { "days": { "value": 14, "range": [1, 28], "positions": [{ "value": 14, "evidence": ["stay-latex"] }] } },
        "silicone": { "days": { "value": 84, "evidence": ["stay-latex"] } }
      }
    }
  ]
}`,
  'sources.json': `{
  "$schema": "urn:dwellset:sources:1",
  "sources": [
    { "id": "guide-1", "kind": "guideline", "body": "An invented body", "title": "On catheters", "year": 2020 }
  ]
}`,
  'evidence/dwell.json': `{
  "$schema": "urn:dwellset:evidence:1",
  "topic": "dwell",
  "evidence": [
    {
      "id": "stay-short",
      "statement": "Short stays are safer.",
      "from": [{ "source": "guide-1", "locator": "1.1", "grade": "ungraded", "status": "memory" }]
    },
    {
      "id": "stay-latex",
      "statement": "Latex needs changing sooner.",
      "from": [{ "source": "guide-1", "locator": "1.2", "grade": "ungraded", "status": "memory" }],
      "derivedFrom": ["stay-short"]
    }
  ]
}`,
  'evidence/not-carried.json': `{
  "$schema": "urn:dwellset:not-carried:1",
  "rows": [
    { "id": "stay-child", "why": "paediatric", "sentence": "Written for children." }
  ]
}`,
  'hazards.json': `{
  "$schema": "urn:dwellset:hazards:1",
  "hazards": [
    {
      "id": "latex-used",
      "title": "Latex in an allergic patient",
      "description": "A latex catheter is passed in spite of an allergy.",
      "causes": ["The allergy was not asked"],
      "effect": "Contact with latex",
      "harm": "Anaphylaxis",
      "controls": ["stops/latex-yes"],
      "initial": { "severity": "Major", "likelihood": "Medium", "risk": 3 },
      "residual": { "severity": "Major", "likelihood": "Very low", "risk": 2 },
      "owner": "Clinical safety officer",
      "status": "open"
    }
  ]
}`,
};
