import { forgetMade } from '../../shared/lazily.ts';
import { findingSorts, openWorkspace } from '../api.ts';
import { textsOf } from '../findings/support/help.ts';

/** Goes once through what a first answer needs, so that a startup snapshot holds it compiled. Of the texts nothing is kept. */
export function warmUp(): void {
  for (const { bad, good } of findingSorts.flatMap(({ examples }) => examples.map(textsOf))) {
    const texts = new Map([
      ['bad.card', bad],
      ['good.card', good],
    ]);
    openWorkspace({ readText: (file) => texts.get(file) }).check([...texts.keys()]);
  }
  forgetMade();
}
