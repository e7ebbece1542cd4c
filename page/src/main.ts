// SPDX-License-Identifier: MIT
import './app.css';
import { mount } from 'svelte';
import App from './App.svelte';
import { quick } from './engine/engines';

quick.warm();
const target = document.getElementById('page');
if (target) mount(App, { target });

if (import.meta.env.PROD && 'serviceWorker' in navigator) void navigator.serviceWorker.register('./offline.js').catch(() => undefined);
