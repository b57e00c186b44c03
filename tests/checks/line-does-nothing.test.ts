import { describePair } from '../support/check-pair.js';

describePair('line-does-nothing');
