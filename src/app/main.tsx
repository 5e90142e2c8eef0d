import { createRoot } from 'react-dom/client';
import { Workbox } from 'workbox-window';

const place = document.getElementById('root');
if (place === null) throw new Error('index.html has no #root');
createRoot(place).render(<h1>Swarfside</h1>);

if (import.meta.env.PROD && 'serviceWorker' in navigator) void new Workbox('./sw.js').register();
