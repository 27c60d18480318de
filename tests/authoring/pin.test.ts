import { buildRelease, pin, readLibrary } from '@dwellset/authoring';
import { describe, expect, it } from 'vitest';
import { amendment, filesOf, policy } from './fixture.ts';

const AMENDMENT = 'hospitals/hollow/amendment.json';
const ADOPTION = 'hospitals/hollow/adoption.json';
const files = (changes: Parameters<typeof amendment>[0]) =>
  filesOf({ ...policy(), [AMENDMENT]: amendment(changes) });

describe('pinning the documents of a hospital', () => {
  it('names the published set in the amendment and the amended one in the adoption', () => {
    const before = files({ removal: [{ switchOff: 'bypassing' }] });
    const { files: pinned, refused } = pin(before, 'hollow');
    expect(refused).toEqual([]);
    const library = readLibrary(new Map([...before, ...pinned]));
    const built = buildRelease(library, 'removal', { hospital: 'hollow' });
    const published = buildRelease(library, 'removal').digest;
    expect(library.hospitals.get('hollow')?.amendment?.value.amends[0]?.digest).toBe(published);
    expect(library.hospitals.get('hollow')?.adoption?.value.releases[0]?.digest).toBe(built.digest);
    expect(built.digest).not.toBe(published);
  });

  it('changes the digests and nothing else of the text', () => {
    const text = `{ "$schema": "urn:dwellset:adoption:1",   "id": "a", "organisation": "Hollow Hill (invented)",
  "approverRole": "Lead nurse", "date": "2030-01-01", "reviewDue": "2031-01-01",
  "releases": [ { "id": "removal", "version": "0.1.0", "digest": "${'0'.repeat(64)}" } ] }`;
    const before = filesOf(policy()).set(ADOPTION, text);
    const digest = buildRelease(readLibrary(before), 'removal').digest!;
    expect(pin(before, 'hollow').files.get(ADOPTION)).toBe(text.replace('0'.repeat(64), digest));
  });

  it('changes nothing when it is done again', () => {
    const before = files({ removal: [{ switchOff: 'bypassing' }] });
    const once = pin(before, 'hollow').files;
    expect([...pin(new Map([...before, ...once]), 'hollow').files]).toEqual([...once]);
  });

  it('fills in a digest that is not there yet, and a version that has moved on', () => {
    const documents = { ...policy(), [AMENDMENT]: amendment({ removal: [{ switchOff: 'bypassing' }] }) };
    const [entry] = documents[AMENDMENT]!.amends as Record<string, unknown>[];
    delete entry!.digest;
    entry!.version = '0.0.9';
    const before = filesOf(documents);
    expect(readLibrary(before).hospitals.get('hollow')?.amendment).toBeUndefined();
    const after = readLibrary(new Map([...before, ...pin(before, 'hollow').files]));
    expect(buildRelease(after, 'removal', { hospital: 'hollow' }).release?.amendment?.base).toEqual({
      version: '0.1.0',
      digest: buildRelease(after, 'removal').digest,
    });
  });

  it('is refused, and pins nothing, where the amendment is not allowed', () => {
    const { files: pinned, refused } = pin(files({ removal: [{ switchOff: 'overdue' }] }), 'hollow');
    expect(pinned.size).toBe(0);
    expect(refused.map(({ code }) => code)).toEqual(['locked-switched-off']);
  });
});
