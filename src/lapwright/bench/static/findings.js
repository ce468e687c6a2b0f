// The findings are fetched where the page came without them.
import { fetchSheets } from "./fetching.js";

fetchSheets();
