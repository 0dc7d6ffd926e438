import { render } from 'preact'
import { App } from './app.tsx'
import { followLinks } from './router.ts'
import './styles.css'

followLinks()
render(<App />, document.getElementById('app')!)
