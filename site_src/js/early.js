// @ts-check
// In the head of a frame's pages: the calculator starts to load while the page is still being read.
import {startEarly} from './worker_client.js';

startEarly();
