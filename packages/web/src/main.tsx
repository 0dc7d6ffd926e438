import './away/unique.ts'
import { render } from 'preact'
import { App } from './app.tsx'
import { keepForAway } from './away/register.ts'
import { followLinks } from './router.ts'
import './styles.css'

followLinks()
keepForAway()
render(<App />, document.getElementById('app')!)
