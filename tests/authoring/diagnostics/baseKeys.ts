/** An answer key: what an invented body says, asked of the sets of the base library. */
export const keys: Readonly<Record<string, string>> = {
  'published/stays.key.json': `{
  "$schema": "urn:dwellset:key:1",
  "id": "stays",
  "title": "What an invented body says",
  "source": "guide-1",
  "base": {
    "asOf": "2026-11-02T08:00:00+00:00",
    "timeZone": "Europe/London",
    "facts": { "patient.signs": [], "catheter.size": { "value": 14, "unit": "[Ch]" } }
  },
  "cases": [
    {
      "id": "fever",
      "row": "stay-short",
      "locator": "1.1",
      "status": "memory",
      "says": "Fever is a reason.",
      "facts": { "patient.signs": ["fever"] },
      "answer": {
        "conclusion": { "set": "reason", "is": ["supported"] },
        "advice": { "set": "stops", "restsOn": ["stay-latex"], "speaks": true }
      }
    },
    {
      "id": "latex-in-hand",
      "source": "guide-1",
      "locator": "1.2",
      "status": "memory",
      "says": "Latex is not passed.",
      "without": ["catheter.size"],
      "chosen": { "catheter": "silicone-14" },
      "answer": { "chosen": { "set": "kit", "of": "catheter", "ruledOut": false } }
    },
    {
      "id": "converts",
      "locator": "1.3",
      "status": "memory",
      "says": "12 Ch is 4 mm.",
      "answer": { "converts": { "value": 12, "unit": "[Ch]", "to": "mm", "gives": 4, "rounding": "up", "step": 0.1 } }
    }
  ]
}`,
};
