/** Each shipped rulebook reads well, and each of its rules has a card that breaks it alone and one that keeps it. */
import { describe, expect, test } from 'vitest';
import { all } from '../../../grammar/navigate.ts';
import { parse } from '../../../grammar/parse.ts';
import { explain, findingSorts, format } from '../../../server/api.ts';
import { bind } from '../../../server/binding/bind.ts';
import { withSlip } from '../../../server/rulebooks/rulebook.ts';
import { allRulebooks } from '../../../server/rulebooks/rulebooks.ts';
import { type Finding, pageOf } from '../../../shared/finding.ts';
import { cardsIn, folder, openSamples, textOf, told } from '../../samples/support.ts';
import { check, findingsOf } from '../../support/check.ts';

describe.each(allRulebooks)('$name', ({ name, text, good, slips = {}, findings = [] }) => {
  test('reads without a problem, and is written in the usual layout', () => {
    expect(parse(text).problems).toEqual([]);
    expect(bind(name, () => undefined).problems).toEqual([]);
    expect(format(text)).toBe(text);
  });

  const rules = all(parse(text).file, 'rule');

  test('each rule has a reason, and a card that breaks it', () => {
    expect(rules.filter(({ because }) => because.length === 0)).toEqual([]);
    expect(Object.keys(slips)).toEqual(rules.map((rule) => rule.name?.text));
  });

  test('its findings are there', () => {
    expect(findingSorts.map(({ code }) => code)).toEqual(expect.arrayContaining([...findings]));
  });

  test.each(findings)('%s has a page with a reason, and a good and a bad example', (code) => {
    const sort = findingSorts.find((one) => one.code === code);
    const page = explain(code);
    const shown = [sort?.help.why, ...(sort?.sources ?? []).map(({ title }) => title)];
    for (const text of [...shown, 'With the finding', 'Mended']) expect(page).toContain(text);
  });

  if (good === undefined) return;

  test('nothing is found in the card that keeps all rules', () => {
    expect(format(good)).toBe(good);
    check(good);
  });

  test.each(Object.entries(slips))('%s is broken alone', (rule, slip) => {
    for (const [line] of slip) expect(good).toContain(line);
    // What is not put back is told by its normal state too; a slip may also leave something that does nothing.
    const found = findingsOf(withSlip(good, slip)).filter(
      ({ level, code }) => level !== 'hint' && code !== 'safety.left-changed',
    );
    expect([...new Set(found.map((finding) => finding.rule ?? `${finding.code} ${finding.message}`))]).toEqual([rule]);
    const page = explain(pageOf(found[0] as Finding));
    const { because = [], sources = [] } = rules.find((one) => one.name?.text === rule) ?? {};
    const shown = [...because, ...sources].map(({ value }) => value);
    for (const text of [...shown, '**Source**', 'Broken by', good.trim()]) expect(page).toContain(text);
  });
});

test('a rulebook whose name is misspelt is told with the nearest name', () => {
  const [finding] = check('use "std:lokout"\n//  ^^^^^^^^^^^^ name.unknown');
  expect(finding?.message).toContain('std:lockout');
  expect(finding?.fixes.map(({ title }) => title).join()).toContain('std:lockout');
});

/** The equipment of the samples; where a hazard does not say what it can do, std:signals rightly asks for it. */
test.each(
  ['merganser/merganser.card', 'heron-dyke/station.card', 'bakery/bakery.card'].flatMap((file) =>
    allRulebooks
      .filter(({ name }) => name !== 'std:signals' || file.startsWith('bakery'))
      .map(({ name }) => [file, name] as const),
  ),
)('%s gets no false alarm from %s', (file, name) => {
  const path = `${folder}/${file}`;
  const cards = cardsIn(file.split('/')[0] as string).map((card) => `${folder}/${file.split('/')[0]}/${card}`);
  const { findings } = openSamples({ [path]: `use "${name}"\n${textOf(path)}` }).check(cards);
  expect(told(findings)).toEqual([]);
});

/** A recipe is a piece of a card: it names no manual, for which std:record rightly asks. */
test.each(cardsIn('recipes'))('the recipe %s gets no false alarm from all rulebooks together', (file) => {
  const path = `${folder}/recipes/${file}`;
  const uses = allRulebooks.filter(({ name }) => name !== 'std:signals').map(({ name }) => `use "${name}"\n`);
  const { findings } = openSamples({ [path]: uses.join('') + textOf(path) }).check([path]);
  expect(told(findings.filter(({ code }) => code !== 'card.missing-field'))).toEqual([]);
});
