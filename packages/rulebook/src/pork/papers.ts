export { paperKinds, wayOfPaper } from '../../data/pork/papers.ts'
