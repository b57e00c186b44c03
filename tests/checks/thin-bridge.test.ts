import { describePair } from '../support/check-pair.js';

describePair('thin-bridge');
