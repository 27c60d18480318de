import { keys } from './baseKeys.ts';
import { lists } from './baseLists.ts';
import { sets } from './baseSets.ts';
import { shared } from './baseShared.ts';

const hospitals: Readonly<Record<string, string>> = {
  'hospitals/eastmere/amendment.json': `{
  "$schema": "urn:dwellset:amendment:1",
  "id": "eastmere-2026",
  "version": "1.0.0",
  "organisation": "Eastmere General (invented)",
  "approverRole": "Infection prevention lead",
  "date": "2026-10-01",
  "sources": [
    { "id": "eastmere-policy", "kind": "local-policy", "body": "Eastmere General", "title": "Catheter policy" }
  ],
  "evidence": [
    {
      "id": "eastmere-dwell",
      "statement": "Latex stays at most five days here.",
      "from": [{ "source": "eastmere-policy", "locator": "section 2", "grade": "ungraded", "status": "practice" }]
    }
  ],
  "facts": [
    { "id": "patient.isolated", "type": "boolean", "title": "isolation", "question": "Is the patient isolated?" }
  ],
  "amends": [
    {
      "set": "stops",
      "version": "0.1.0",
      "digest": "${'0'.repeat(64)}",
      "changes": [
        { "set": { "dwell.limit": 6 }, "reason": "Local audit." },
        { "set": { "dwell.longest/latex/days": 5 }, "evidence": ["eastmere-dwell"], "reason": "Local audit." },
        { "switchOff": "dwell-noted", "reason": "Covered elsewhere." },
        { "reword": { "rule": "dwell-long", "title": "Long stay" }, "reason": "Shorter." },
        { "raise": { "rule": "dwell-long", "indicator": "critical" }, "reason": "Often overlooked." },
        { "addText": { "rule": "latex", "detail": ["Ask at {{dwell.limit}} days too."] }, "reason": "Local habit." },
        {
          "add": {
            "id": "isolated",
            "title": "Isolation",
            "when": { "fact": "patient.isolated", "operator": "equal", "value": true },
            "advice": { "summary": "Keep the bag in the room", "indicator": "info" },
            "because": "The bag carries what the patient carries.",
            "evidence": ["eastmere-dwell"]
          },
          "after": "latex",
          "reason": "Local outbreak."
        }
      ]
    }
  ]
}`,
  'hospitals/eastmere/adoption.json': `{
  "$schema": "urn:dwellset:adoption:1",
  "id": "eastmere",
  "organisation": "Eastmere General (invented)",
  "approverRole": "Infection prevention lead",
  "date": "2026-10-01",
  "reviewDue": "2027-10-01",
  "releases": [
    { "id": "stops", "version": "0.1.0", "digest": "${'1'.repeat(64)}" }
  ]
}`,
  'hospitals/eastmere/cases/monday.case.json': `{
  "$schema": "urn:dwellset:case:1",
  "asOf": "2026-11-02T08:00:00+00:00",
  "timeZone": "Europe/London",
  "facts": {
    "allergy.latex": { "absent": "asked-unknown" },
    "catheter.size": { "value": 14, "unit": "[Ch]" }
  },
  "chosen": {
    "catheter": "silicone-14"
  }
}`,
  'withdrawals/stops-0.0.9.json': `{
  "$schema": "urn:dwellset:withdrawal:1",
  "id": "stops",
  "version": "0.0.9",
  "digest": "${'2'.repeat(64)}",
  "date": "2026-09-01",
  "approverRole": "Editor of the rules",
  "reason": "It counted the day of insertion twice.",
  "replacement": "0.1.0"
}`,
  'wards/hill.json': `{
  "$schema": "urn:dwellset:ward:1",
  "id": "hill",
  "title": "An invented ward",
  "timeZone": "Europe/London",
  "start": "2026-11-02T08:00:00Z",
  "patients": 3,
  "arriveWithinDays": 2,
  "stayDays": [2, 4],
  "stages": [
    {
      "id": "arrival",
      "hours": [0, 1],
      "facts": { "allergy.latex": { "oneOf": [{ "value": true }, { "value": false, "weight": 9 }] } }
    },
    {
      "id": "measured",
      "after": "arrival",
      "hours": [1, 2],
      "facts": { "catheter.size": { "between": [12, 16], "step": 2, "unit": "[Ch]" } }
    }
  ]
}`,
};

/** A small library with one set of each shape and nothing wrong in it: path → text. */
export const base: ReadonlyMap<string, string> = new Map(
  Object.entries({ ...shared, ...lists, ...sets, ...keys, ...hospitals }),
);
