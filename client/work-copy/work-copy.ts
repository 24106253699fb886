/**
 * The work copy: the card on a screen, with what was entered so far. Its whole state is the list of entries; after each one everything
 * that is shown is put up anew from it, so that a page that was closed, undone or loaded from a file shows the same.
 */
import type { Job, JobWord, MoveIndex, Unit } from '../../shared/job.ts';
import { shortDigest } from '../../shared/page-text.ts';
import { Clocks, WallTime } from './clocks.ts';
import type { Desk } from './desk.ts';
import { button, element, faultLine } from './dom.ts';
import { Drafts } from './drafts.ts';
import { type Doubt, type Entry, type FileContent, type Happening, noted, recordOf, standing } from './entries.ts';
import { Finger } from './finger.ts';
import { following } from './follow.ts';
import { merged } from './merge.ts';
import { digestOf, doubtOf, sealed, statedDigest } from './seal.ts';
import { Signal } from './signal.ts';
import { openStore, type Store } from './store.ts';
import { showBar } from './views/bar.ts';
import { showAsk, showChoose } from './views/branch.ts';
import { showConflicts } from './views/conflicts.ts';
import { askLoad, chooseFile, foreignText, saveFile } from './views/files.ts';
import { handOverForm, handOverPages } from './views/hand-over.ts';
import { showHead } from './views/head.ts';
import { showRecord } from './views/record.ts';
import { isActive, pressTick, showUnit } from './views/unit.ts';
import { isFor, walk } from './walk.ts';
import { speech } from './words.ts';

/** What is put up anew after each entry. */
const passing = '.controls, .entry';

/** A card that asks more in a row than this goes round in a circle. */
const mostAnswers = 200;

export class WorkCopy {
  #entries: readonly Entry[];
  readonly #store: Store;
  readonly #speech;
  readonly #time = new WallTime(() => this.#signal.say(this.#say('clockBack')));
  readonly #clocks = new Clocks(() => this.#time.now());
  readonly #live = element('p', { class: 'live', role: 'status', 'aria-live': 'assertive' });
  readonly #fault = faultLine();
  readonly #bar = element('div', { class: 'bar-content' });
  readonly #footer = element('section', { class: 'work-bar' }, this.#live, this.#bar);
  readonly #head = element('section', { class: 'work-head' });
  readonly #handOver = element('section', { class: 'work-hand-over' });
  #isHandingOver = false;
  readonly #conflicts = element('section', { class: 'work-conflicts' });
  readonly #record = element('section', { class: 'work-record' });
  readonly #tools = element('section', { class: 'work-tools' });
  readonly #signal = new Signal(this.#live);
  readonly #drafts = new Drafts();
  /** The device or a file has what was entered. */
  #isKept = true;
  /** The record whose place the present one took. */
  #before: readonly Entry[];
  /** Of this page, where the browser can tell. */
  #digest: string | undefined;
  readonly #finger = new Finger();
  readonly #places = new Map<MoveIndex, HTMLElement>();

  /** `shown` is the page as it was before anything was put on it. */
  constructor(
    private readonly job: Job,
    shown: string,
  ) {
    this.#speech = speech(job);
    this.#store = openStore(job, window);
    this.#entries = this.#store.load();
    this.#before = this.#store.load('before');
    for (const place of document.querySelectorAll<HTMLElement>('[data-move]'))
      this.#places.set(Number(place.dataset.move), place);
    this.#tools.setAttribute('aria-label', this.#say('open'));
    this.#footer.setAttribute('aria-label', this.#say('now'));
    document.body.prepend(this.#tools);
    document.querySelector('main')?.prepend(this.#head, this.#conflicts);
    document.querySelector('main')?.append(this.#handOver, this.#record);
    document.body.append(this.#footer);
    this.#addTickButtons();
    window.addEventListener('beforeunload', (event) => {
      if (!this.#isKept) event.preventDefault();
    });
    this.#store.onChange(() => this.#takeOver(this.#store.load(), 'otherTab'));
    this.#showTools();
    if (this.#entries.length > 0) this.#show();
    void digestOf(shown).then((digest) => this.#compare(digest));
  }

  /** Says, on paper too, where the page is not what was exported. */
  #compare(digest: string | undefined): void {
    this.#digest = digest;
    const stated = statedDigest();
    if (digest === stated) return;
    const text =
      digest === undefined
        ? this.#say('cannotCompare')
        : this.#speech.say('altered', { own: shortDigest(digest), stated: shortDigest(stated) || '–' });
    const seen = digest === undefined ? 'not-compared' : 'altered';
    document.body.prepend(element('p', { class: seen, role: 'alert', dir: 'auto' }, text));
  }

  #say(word: JobWord): string {
    return this.#speech.say(word);
  }

  get #isWorking(): boolean {
    return document.body.classList.contains('is-working');
  }

  // -------------------------------------------------------------- entering

  #add(happenings: readonly Happening[]): void {
    this.#signal.prepare();
    this.#signal.end();
    if (happenings.some(({ type }) => type === 'hand-over')) this.#isHandingOver = false;
    const at = this.#time.now();
    const last = this.#entries[this.#entries.length - 1];
    const isBack = last !== undefined && at < last.at;
    for (const happening of happenings) this.#note(happening, at);
    this.#answerWhatFollows(at);
    for (const happening of happenings) this.#drafts.forget(happening);
    this.#keep();
    if (isBack) this.#signal.say(this.#say('clockBack'));
    this.#show();
    this.#goToNext(happenings);
  }

  #note(happening: Happening, at = this.#time.now()): void {
    this.#entries = noted(this.#entries, happening, { at, device: this.#store.device });
  }

  #answerWhatFollows(at: number): void {
    for (let count = 0; count < mostAnswers; count++) {
      const happening = following(this.job, walk(this.job, this.#entries), this.#speech);
      if (happening === undefined) return;
      this.#note(happening, at);
    }
  }

  #keep(): void {
    this.#isKept = this.#store.save(this.#entries);
    this.#fault.textContent = this.#isKept ? '' : this.#say('storageFailed');
  }

  #takeOver(entries: readonly Entry[], word: JobWord): void {
    this.#entries = entries;
    this.#show();
    this.#signal.say(this.#say(word));
  }

  #desk(): Desk {
    return {
      job: this.job,
      walk: walk(this.job, this.#entries),
      speech: this.#speech,
      clocks: this.#clocks,
      signal: this.#signal,
      drafts: this.#drafts,
      now: () => this.#time.now(),
      add: (...happenings) => this.#add(happenings),
      fresh: () => this.#desk(),
    };
  }

  // -------------------------------------------------------------- showing

  #show(): void {
    for (const old of document.querySelectorAll(passing)) old.remove();
    for (const old of document.querySelectorAll('.is-now')) old.classList.remove('is-now');
    this.#clocks.clear();
    this.#drafts.withdraw();
    const desk = this.#desk();
    const isBegun = desk.walk.head !== undefined;
    const heads = this.#entries.flatMap((entry) => (entry.type === 'head' ? [entry] : []));
    showHead(desk, heads[heads.length - 1], this.#head);
    this.#footer.hidden = !isBegun;
    for (const part of document.querySelectorAll<HTMLElement>('[data-only]'))
      part.hidden = !isFor(this.job, Number(part.dataset.only), desk.walk.head?.machine);
    if (isBegun) for (const [move, place] of this.#places) this.#showMove(desk, move, place);
    showConflicts(desk, this.#entries, this.#conflicts);
    showBar(desk, this.#bar, (move) => this.#goTo(move));
    const form = this.#isHandingOver ? [handOverForm(desk, () => this.#askHandOver(false))] : [];
    this.#handOver.replaceChildren(...form, ...handOverPages(desk, this.#entries));
    showRecord(desk, this.#sealed(), this.#entries, this.#record);
    document.body.classList.toggle('has-record', desk.walk.finish !== undefined);
    this.#showTools();
  }

  #showMove(desk: Desk, index: MoveIndex, place: HTMLElement): void {
    const move = this.job.moves[index];
    if (move?.type === 'unit') showUnit(desk, index, move, place);
    else if (move?.type === 'ask' && isActive(desk, index)) showAsk(desk, index, move, place);
    else if (move?.type === 'choose' && isActive(desk, index)) showChoose(desk, index, move, place);
  }

  #addTickButtons(): void {
    for (const [index, place] of this.#places) {
      const unit = this.job.moves[index];
      if (unit?.type !== 'unit') continue;
      const press = () => {
        const desk = this.#desk();
        if (desk.walk.head) pressTick(desk, index, unit as Unit, place);
        else this.#goToNext([]);
      };
      const label = this.#speech.labelled(unit.name, this.#say('done'));
      place.querySelector(':scope > .tick')?.append(button('', press, { class: 'tick-button', 'aria-label': label }));
    }
  }

  #showTools(): void {
    const isWorking = this.#isWorking;
    const word = isWorking ? 'asPrinted' : standing(this.#entries).length > 0 ? 'goOn' : 'open';
    const tools = isWorking ? this.#fileTools() : [];
    this.#tools.replaceChildren(
      button(this.#say(word), () => this.#toggle(), { class: 'main' }),
      ...tools,
      this.#fault,
    );
  }

  #fileTools(): readonly Node[] {
    const chooser = chooseFile(this.job, (content) => void this.#load(content));
    const tools = [
      button(this.#say('save'), () => void this.#saveFile()),
      element('label', { class: 'file' }, element('span', {}, this.#say('load')), chooser),
      ...(this.#before.length === 0 ? [] : [button(this.#backText(), () => this.#replace(this.#before))]),
    ];
    const { head, finish } = walk(this.job, this.#entries);
    if (head && !finish) tools.unshift(button(this.#say('handOver'), () => this.#askHandOver(true)));
    return this.#entries.length === 0 ? tools : [...tools, this.#startAgain()];
  }

  #askHandOver(is: boolean): void {
    this.#isHandingOver = is;
    this.#show();
    const name = this.#handOver.querySelector<HTMLElement>('.wanted');
    if (name === null) this.#goToNext([]);
    else {
      this.#handOver.scrollIntoView({ block: 'start' });
      name.focus({ preventScroll: true });
    }
  }

  #startAgain(): HTMLElement {
    const place = element('span', { class: 'start-again' });
    const ask = button(this.#say('startAgain'), () => {
      const yes = button(this.#say('startAgain'), () => this.#clear(), { class: 'stop' });
      place.replaceChildren(
        element('span', {}, this.#say('startAgainMeaning')),
        yes,
        button(this.#say('cancel'), () => this.#showTools()),
      );
    });
    place.append(ask);
    return place;
  }

  #clear(): void {
    this.#entries = [];
    this.#keep();
    this.#show();
  }

  // -------------------------------------------------------------- files

  #sealed() {
    return sealed(recordOf(this.job, this.#entries, this.#digest));
  }

  async #saveFile(): Promise<void> {
    const saved = this.#entries;
    saveFile(this.job, await this.#sealed(), this.#time.now());
    this.#isKept ||= saved === this.#entries;
  }

  async #load(content: FileContent): Promise<void> {
    if ('fault' in content) {
      const isForeign = content.fault === 'foreign';
      this.#signal.say(isForeign ? foreignText(this.job, content.card, this.#speech) : this.#say('loadBroken'));
      return;
    }
    const doubt = await doubtOf(content);
    this.#signal.say('');
    if (doubt === undefined && this.#entries.length === 0) {
      this.#replace(content.entries);
      return;
    }
    const question = askLoad(doubt, this.#entries, this.#speech, {
      readIn: () => this.#readIn(content.entries, doubt),
      replace: () => this.#replace(content.entries, doubt),
      cancel: () => this.#showTools(),
    });
    this.#tools.append(question);
    question.scrollIntoView({ block: 'center' });
    question.querySelector('button')?.focus({ preventScroll: true });
  }

  #replace(entries: readonly Entry[], doubt?: Doubt): void {
    const old = this.#entries;
    this.#before = old;
    this.#store.save(old, 'before');
    this.#entries = entries;
    if (doubt) this.#note({ type: 'loaded', doubt });
    this.#takeOver(this.#entries, 'loaded');
    this.#keep();
  }

  #readIn(entries: readonly Entry[], doubt?: Doubt): void {
    const { entries: both, ...found } = merged(this.job, this.#entries, entries);
    if (found.count === 0) {
      this.#showTools();
      this.#signal.say(this.#say('nothingNew'));
      return;
    }
    this.#entries = both;
    this.#note({ type: 'read-in', ...found });
    if (doubt) this.#note({ type: 'loaded', doubt });
    this.#takeOver(this.#entries, 'loaded');
    this.#keep();
    if (found.conflicts.length > 0) this.#conflicts.scrollIntoView({ block: 'start' });
  }

  #backText(): string {
    return this.#speech.say('takeUpBefore', { count: this.#before.length });
  }

  // -------------------------------------------------------------- finding the way

  #toggle(): void {
    document.body.classList.toggle('is-working');
    this.#signal.prepare();
    if (this.#isWorking) {
      this.#show();
      this.#goToNext([]);
    } else this.#showTools();
  }

  /** Brings what is wanted next into view and under the keyboard: in the unit that was just worked on, while it is not done. */
  #goToNext(happenings: readonly Happening[]): void {
    const { next, opened, ended, head } = walk(this.job, this.#entries);
    if (head === undefined) {
      this.#head.scrollIntoView({ block: 'start' });
      this.#head.querySelector<HTMLElement>('input')?.focus({ preventScroll: true });
      return;
    }
    const last = happenings[happenings.length - 1];
    const own = last && 'move' in last && (next.includes(last.move) || opened.has(last.move)) ? last.move : next[0];
    if (own !== undefined) this.#goTo(own);
    else if (ended) {
      this.#record.scrollIntoView({ block: 'start' });
      this.#record.querySelector<HTMLElement>('input, button')?.focus({ preventScroll: true });
    }
  }

  #goTo(move: MoveIndex): void {
    const place = this.#places.get(move);
    if (place === undefined) return;
    place.scrollIntoView({ block: 'center' });
    this.#finger.leave();
    place.querySelector<HTMLElement>('.wanted')?.focus({ preventScroll: true });
  }
}
