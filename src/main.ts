/** Opens the app. */
import '@fontsource-variable/atkinson-hyperlegible-next/wght.css'
import 'maplibre-gl/dist/maplibre-gl.css'
import '../styles/tokens.css'
import '../styles/base.css'
import '../styles/plots.css'
import { mount } from 'svelte'
import App from './views/shell/App.svelte'

const target = document.getElementById('app')
if (!target) throw new Error('The page has no element called ‘app’.')
mount(App, { target })
