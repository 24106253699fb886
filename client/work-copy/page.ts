/** The script inside an exported card: reads the card's program and puts the work copy over it. */
import type { Job } from '../../shared/job.ts';
import { unpacked } from '../../shared/packed.ts';
import { shownText } from './seal.ts';
import { WorkCopy } from './work-copy.ts';

const program = document.getElementById('job')?.textContent;
if (program) new WorkCopy(unpacked(JSON.parse(program)) as Job, shownText());
