import { describe, expect, test } from 'vitest';
import { findingSorts } from '../../../server/api.ts';
import { textsOf } from '../../../server/findings/support/help.ts';
import { check, findingsOf } from '../../support/check.ts';

describe.each(findingSorts.filter((sort) => sort.examples.length > 0))(
  'the examples of $code',
  ({ code, examples }) => {
    test.each(examples.map(textsOf))('give what they say (%#)', ({ bad, good }) => {
      check(bad);
      expect(bad).toContain(code);
      expect(findingsOf(good).map((finding) => `${finding.code} ${finding.message}`)).toEqual([]);
    });
  },
);
