const about = (id: string, shape: string): string => `"id": "${id}",
  "version": "0.1.0",
  "status": "draft",
  "language": "en",
  "title": "Set ${id}",
  "intendedUse": "Examples of mistakes",
  "users": "Authors",
  "exclusions": [],
  "limits": [],
  "shape": "${shape}",`;

const basePatient = `"base": {
    "asOf": "2026-11-02T08:00:00+00:00",
    "timeZone": "Europe/London",
    "recordedAt": "2026-11-02T07:00:00+00:00",
    "searched": ["allergy"],
    "facts": { "allergy.latex": false, "catheter.size": { "value": 14, "unit": "[Ch]" } }
  },`;

/** An advice set. */
const stops: Readonly<Record<string, string>> = {
  'stops/ruleset.json': `{
  "$schema": "urn:dwellset:rule-set:1",
  ${about('stops', 'advice')}
  "effectivePeriod": { "start": "2026-01-01", "end": "2026-12-31" },
  "population": {
    "when": { "fact": "patient.age-years", "operator": "greaterThanInclusive", "value": 18 },
    "otherwise": "Written for adults."
  },
  "uses": ["dwell"],
  "conditions": {
    "ill": { "fact": "patient.signs", "operator": "containsAny", "value": { "parameter": "dwell.signs" } },
    "ill-adult": { "all": [{ "condition": "ill" }, { "fact": "patient.age-group", "operator": "equal", "value": "adult" }] }
  },
  "derived": [
    {
      "id": "catheter.longest",
      "type": "number",
      "unit": "d",
      "step": 1,
      "decimals": 0,
      "limits": [0, 400],
      "title": "longest stay",
      "question": "How long may it stay?",
      "from": { "lookup": { "table": "dwell.longest", "key": "catheter.material", "column": "days" } }
    },
    {
      "id": "patient.sign-count",
      "type": "number",
      "unit": "1",
      "step": 1,
      "decimals": 0,
      "limits": [0, 2],
      "title": "number of signs",
      "question": "How many signs are there?",
      "from": { "countCodes": { "of": "patient.signs", "in": { "parameter": "dwell.signs" } } }
    },
    {
      "id": "conclusion.reason",
      "type": "code",
      "codes": "reasons",
      "title": "what the reason comes to",
      "question": "Is there a reason?",
      "from": { "conclusion": "reason" }
    }
  ],
  "rules": ["latex", "dwell-long", "dwell-noted"]
}`,
  'stops/latex.rule.json': `{
  "$schema": "urn:dwellset:rule:1",
  "id": "latex",
  "title": "No latex in allergy",
  "when": { "fact": "allergy.latex", "operator": "equal", "value": true },
  "advice": { "summary": "Do not use latex; ask for all-silicone", "indicator": "critical" },
  "because": "Latex may cause anaphylaxis.",
  "evidence": ["stay-short"],
  "hazards": ["latex-used"],
  "locked": true
}`,
  'stops/dwell-long.rule.json': `{
  "$schema": "urn:dwellset:rule:1",
  "id": "dwell-long",
  "title": "Stay is long",
  "scope": { "parameter": "dwell.enabled", "operator": "equal", "value": true },
  "when": {
    "all": [
      { "fact": "catheter.days", "operator": "greaterThan", "value": { "parameter": "dwell.limit" } },
      { "not": { "condition": "ill-adult" } },
      { "any": [
        { "fact": "catheter.material", "operator": "in", "value": ["latex"] },
        { "fact": "catheter.inserted-at", "operator": "before", "value": "2026-01-01T00:00:00Z" },
        { "fact": "catheter.use-by", "operator": "after", "value": "2026-01-31" },
        { "fact": "patient.remarks", "operator": "recorded" }
      ] }
    ]
  },
  "advice": {
    "summary": "Consider removal: in place {{catheter.days}} days, longest stay {{dwell.limit}} days",
    "detail": ["Review the reason.", "Plan the removal."],
    "indicator": "warning",
    "suggestions": [{ "label": "Review today" }],
    "overrideReasons": [{ "code": "urology", "display": "Urology decides" }]
  },
  "because": "Risk rises with each day.",
  "evidence": ["stay-short"],
  "supersedes": ["dwell-noted"]
}`,
  'stops/dwell-noted.rule.json': `{
  "$schema": "urn:dwellset:rule:1",
  "id": "dwell-noted",
  "title": "Stay is noted",
  "when": { "fact": "catheter.size", "operator": "greaterThan", "value": 12 },
  "advice": { "summary": "Note the day of insertion", "indicator": "info" },
  "because": "Somebody will ask.",
  "evidence": ["stay-latex"]
}`,
  'stops/latex.vignettes.json': `{
  "$schema": "urn:dwellset:vignettes:1",
  ${basePatient}
  "vignettes": [
    {
      "id": "latex-yes",
      "title": "an allergic patient",
      "facts": { "allergy.latex": true },
      "expect": { "rules": { "latex": "applies" }, "speaks": ["latex"], "deciding": { "latex": ["allergy.latex"] } }
    },
    {
      "id": "latex-open",
      "title": "nobody asked",
      "without": ["allergy.latex"],
      "expect": { "rules": { "latex": "undetermined" }, "ask": ["allergy.latex"] }
    },
    {
      "id": "size-impossible",
      "title": "a size that cannot be",
      "facts": { "catheter.size": { "value": 300, "unit": "[Ch]" } },
      "expect": { "problems": { "catheter.size": "impossible" } }
    }
  ]
}`,
  'stops/dwell-long.vignettes.json': `{
  "$schema": "urn:dwellset:vignettes:1",
  ${basePatient}
  "vignettes": [
    {
      "id": "dwell-long-codes",
      "title": "codes answered one by one",
      "facts": { "patient.signs": { "yes": ["fever"], "no": ["pain"] }, "catheter.inserted-at": "2026-10-01" },
      "expect": { "rules": { "dwell-long": "undetermined" } }
    }
  ]
}`,
  'stops/dwell-noted.vignettes.json': `{
  "$schema": "urn:dwellset:vignettes:1",
  ${basePatient}
  "vignettes": [
    { "id": "noted", "title": "a size", "expect": { "rules": { "dwell-noted": "applies" } } }
  ]
}`,
};

/** A decision set. */
const reason: Readonly<Record<string, string>> = {
  'reason/ruleset.json': `{
  "$schema": "urn:dwellset:rule-set:1",
  ${about('reason', 'decision')}
  "conclusions": [{ "id": "supported", "title": "A reason stands" }],
  "defaultConclusion": { "id": "no-reason", "title": "No reason stands" },
  "uses": [],
  "conditions": {},
  "derived": [],
  "rules": ["signs"]
}`,
  'reason/signs.rule.json': `{
  "$schema": "urn:dwellset:rule:1",
  "id": "signs",
  "title": "Signs are there",
  "when": { "fact": "patient.signs", "operator": "contains", "value": "fever" },
  "concludes": "supported",
  "because": "Signs need watching.",
  "evidence": ["stay-short"]
}`,
  'reason/signs.vignettes.json': `{
  "$schema": "urn:dwellset:vignettes:1",
  ${basePatient}
  "vignettes": [
    {
      "id": "signs-fever",
      "title": "fever",
      "facts": { "patient.signs": ["fever"] },
      "expect": { "conclusion": { "id": "supported", "settled": true } }
    }
  ]
}`,
};

/** A checklist. */
const bundle: Readonly<Record<string, string>> = {
  'bundle/ruleset.json': `{
  "$schema": "urn:dwellset:rule-set:1",
  ${about('bundle', 'checklist')}
  "uses": [],
  "conditions": {},
  "derived": [],
  "rules": ["size-noted"]
}`,
  'bundle/size-noted.rule.json': `{
  "$schema": "urn:dwellset:rule:1",
  "id": "size-noted",
  "title": "Size is noted",
  "expect": { "fact": "catheter.size", "operator": "recorded" },
  "advice": { "summary": "Note the size", "indicator": "info" },
  "because": "The next nurse needs it.",
  "evidence": ["stay-short"]
}`,
  'bundle/size-noted.vignettes.json': `{
  "$schema": "urn:dwellset:vignettes:1",
  ${basePatient}
  "vignettes": [
    {
      "id": "size-there",
      "title": "a size",
      "expect": { "rules": { "size-noted": "met" }, "compliance": { "all": "true" } }
    }
  ]
}`,
};

/** A choice set. */
const kit: Readonly<Record<string, string>> = {
  'kit/ruleset.json': `{
  "$schema": "urn:dwellset:rule-set:1",
  ${about('kit', 'choice')}
  "uses": ["dwell"],
  "conditions": {
    "latex-item": { "fact": "option.material", "operator": "equal", "value": "latex" }
  },
  "derived": [],
  "stock": ["catheter"],
  "rules": ["no-latex", "small"]
}`,
  'kit/no-latex.rule.json': `{
  "$schema": "urn:dwellset:rule:1",
  "id": "no-latex",
  "title": "No latex item in allergy",
  "of": "catheter",
  "when": { "fact": "allergy.latex", "operator": "equal", "value": true },
  "excludes": { "condition": "latex-item" },
  "advice": { "summary": "Do not use this item: latex", "indicator": "warning" },
  "because": "Latex may cause anaphylaxis.",
  "evidence": ["stay-short"]
}`,
  'kit/small.rule.json': `{
  "$schema": "urn:dwellset:rule:1",
  "id": "small",
  "title": "Smallest first",
  "of": "catheter",
  "prefers": { "lowest": "option.size" },
  "because": "A small one hurts less.",
  "evidence": ["stay-short"]
}`,
  'kit/no-latex.vignettes.json': `{
  "$schema": "urn:dwellset:vignettes:1",
  ${basePatient}
  "vignettes": [
    {
      "id": "kit-latex",
      "title": "an allergic patient",
      "facts": { "allergy.latex": true },
      "chosen": { "catheter": { "option.size": { "value": 16, "unit": "[Ch]" } } },
      "expect": {
        "options": { "catheter": { "latex-12": "ruled-out" } },
        "first": { "catheter": "silicone-14" },
        "provisional": { "catheter": false }
      }
    }
  ]
}`,
  'kit/small.vignettes.json': `{
  "$schema": "urn:dwellset:vignettes:1",
  ${basePatient}
  "vignettes": [
    { "id": "kit-small", "title": "no allergy", "expect": { "first": { "catheter": "latex-12" } } }
  ]
}`,
  'kit/stock/catheter.json': `{
  "$schema": "urn:dwellset:stock:1",
  "of": "catheter",
  "title": "Catheters",
  "options": [
    { "id": "latex-12", "title": "Latex 12 Ch", "facts": { "option.size": { "value": 12, "unit": "[Ch]" }, "option.material": "latex" } },
    { "id": "silicone-14", "title": "Silicone 14 Ch", "facts": { "option.size": { "value": 14, "unit": "[Ch]" }, "option.material": "silicone" } }
  ]
}`,
};

export const sets: Readonly<Record<string, string>> = { ...stops, ...reason, ...bundle, ...kit };
