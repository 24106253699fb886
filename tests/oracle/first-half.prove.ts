import { proveHalf } from './prove-cards.ts';

proveHalf(0);
