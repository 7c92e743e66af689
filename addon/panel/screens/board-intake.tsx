export function BoardIntake(_props: { readonly onBack: () => void }) {
  return null;
}
